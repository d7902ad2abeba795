#include <algorithm>

#include "base/account.h"
#include "base/local_time.h"
#include "bookkeeping/bookkeeping.h"
#include "csv/csv.h"
#include "csv/shown.h"
#include "intake/held_rows.h"
#include "intake/intake.h"
#include "orders/order_options.h"
#include "orders/order_rows.h"
#include "shop/bookings.h"
#include "shop/renewal.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

void tell(const std::vector<StoryLine>& story, Account& account) {
  for (const StoryLine& line : story) {
    account.told.push_back(local_time(line.at) + "  " + line.text + "  [" + line.cause + "]");
  }
}

std::string now_text(Ledger& ledger, const LedgerItem& item) {
  std::string text(name_of(item.state));
  if (!item.reason.empty()) text += ": " + item.reason;
  const auto placement = ledger.placement_of(item.id);
  if (!placement) return text;
  return (item.state == ItemState::on_sheet ? "on " : text + ", ") + ledger.sheet(placement->sheet)->name +
         ", pocket " + std::to_string(placement->pocket) +
         (placement->blank.empty() ? "" : ", blank " + placement->blank);
}

std::string ordered_by(const LedgerItem& item) {
  return item.customer.empty() ? "" : ", ordered by " + words_in_line(item.customer) + ",";
}

void tell_item(Ledger& ledger, const LedgerItem& item, Account& account) {
  account.told.push_back(named_with_words(item) + ordered_by(item) + " is " + now_text(ledger, item));
  if (!item.note.empty()) account.told.push_back("note to the maker: " + shown_whole(item.note));
  tell(ledger.story_of_item(item), account);
}

/// Sheets whose files show what is not to be engraved any more: all, or the one of that name.
void tell_stale(Ledger& ledger, const std::string& name, Account& account) {
  for (const LedgerSheet& sheet : ledger.outdated_sheets()) {
    if (name.empty() || sheet.name == name) account.warnings.push_back(stale_text(ledger, sheet));
  }
}

void tell_sheet(Ledger& ledger, const LedgerSheet& sheet, Account& account) {
  account.told.push_back(sheet.name + ", in " + sheet.folder + (sheet.written ? "" : ", not in its place yet"));
  const bool has_files = std::ranges::any_of(sheet.files, [](const auto& file) { return !is_aside(file.first); });
  if (!has_files) account.told.emplace_back("it has no files any more: nothing is left on it to engrave");
  tell_stale(ledger, sheet.name, account);
  tell(ledger.story_of_sheet(sheet), account);
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    account.told.push_back(
        "pocket " + std::to_string(placement.pocket) + (placement.blank.empty() ? "" : ", blank " + placement.blank) +
        ": " + named_with_words(*ledger.item(placement.item)) + ", " + std::string(name_of(placement.state)) +
        (placement.reason.empty() ? "" : ": " + placement.reason));
  }
}

/// A list takes the place of an older one, and of nothing else.
MaybeFault check_place(const std::filesystem::path& csv) {
  std::error_code error;
  const auto status = std::filesystem::symlink_status(csv, error);
  if (!std::filesystem::exists(status) || std::filesystem::is_regular_file(status)) return std::nullopt;
  return Fault{"the list cannot be written there", csv.string(), "it is no regular file",
               "Name a file, new or one to be replaced"};
}

void add_record(std::initializer_list<std::string_view> cells, std::string& csv) {
  for (const std::string_view cell : cells) csv += csv_field(cell) + ",";
  csv.back() = '\r';
  csv += '\n';
}

/// One line of the list, and one row of the CSV.
void list_item(Ledger& ledger, const LedgerItem& item, Account& account, std::string& csv) {
  const std::string state = now_text(ledger, item);
  account.told.push_back(named_with_words(item) +
                         (item.customer.empty() ? "" : "  for " + words_in_line(item.customer)) + "  " + state);
  add_record({with_check(item.number), item.words, item.design, state, item.note, item.customer}, csv);
}

void list_row(const LedgerHeldRow& row, Account& account, std::string& csv) {
  account.told.push_back(row_name(row.id) + "  held: " + reason_of(row) + ". It came as " + as_it_came(row));
  add_record({row_name(row.id), row.row, "", "held: " + reason_of(row), "", row.customer}, csv);
}

/// Whether a text has the words in it: capitals and the number of spaces do not count.
class Search {
 public:
  explicit Search(const std::string& words) : words_(label_key(words)) {}
  [[nodiscard]] bool finds(const LedgerItem& item) const {
    return any_has({item.number, item.words, item.exported, item.customer});
  }
  [[nodiscard]] bool finds(const LedgerHeldRow& row) const {
    return any_has({row_name(row.id), row.row, row.customer});
  }

 private:
  [[nodiscard]] bool any_has(std::initializer_list<std::string_view> texts) const {
    return std::ranges::any_of(
        texts, [&](std::string_view text) { return label_key(text).find(words_) != std::u32string::npos; });
  }
  std::u32string words_;
};

/// Held rows that a list of these items has with it.
std::vector<LedgerHeldRow> rows_for(Ledger& ledger, const ListOptions& options) {
  if (!options.state.empty() && options.state != name_of(ItemState::held)) return {};
  std::vector<LedgerHeldRow> rows = ledger.open_rows();
  const Search search(options.words);
  std::erase_if(rows, [&](const LedgerHeldRow& row) { return !search.finds(row); });
  return rows;
}

void tell_row(Ledger& ledger, const LedgerHeldRow& row, Account& account) {
  const bool open = row.state == LedgerHeldRow::State::open;
  account.told.push_back(row_name(row.id) + " is " + (open ? "held" : std::string(name_of(row.state))) + ": " +
                         reason_of(row));
  account.told.push_back("it came as " + as_it_came(row));
  tell(ledger.story_of_row(row), account);
}

/// What is found by words or by a name: one with its story, more in a list.
bool tell_found(Ledger& ledger, const std::string& words, Account& account) {
  const Search search(words);
  std::vector<LedgerItem> items = ledger.items_in(std::nullopt);
  std::erase_if(items, [&](const LedgerItem& item) { return !search.finds(item); });
  std::vector<LedgerHeldRow> rows = ledger.held_rows();
  std::erase_if(rows, [&](const LedgerHeldRow& row) { return !search.finds(row); });
  if (items.size() + rows.size() == 1) {
    for (const LedgerItem& item : items) tell_item(ledger, item, account);
    for (const LedgerHeldRow& row : rows) tell_row(ledger, row, account);
    return true;
  }
  std::string unused;
  for (const LedgerItem& item : items) list_item(ledger, item, account, unused);
  for (const LedgerHeldRow& row : rows) {
    account.told.push_back(row_name(row.id) + "  " + std::string(name_of(row.state)) + ": " + reason_of(row) +
                           ". It came as " + as_it_came(row));
  }
  return !account.told.empty();
}

Result<std::vector<LedgerItem>> items_for(Ledger& ledger, const ListOptions& options) {
  const std::string& state = options.state;
  std::vector<LedgerItem> items;
  for (int i = 0; i <= static_cast<int>(ItemState::cancelled); ++i) {
    const auto one = static_cast<ItemState>(i);
    const bool open = !options.words.empty() || (one != ItemState::packed && one != ItemState::cancelled);
    if (state.empty() ? open : name_of(one) == state)
      std::ranges::copy(ledger.items_in(one), std::back_inserter(items));
  }
  std::vector<std::string_view> names;
  for (int i = 0; i <= static_cast<int>(ItemState::cancelled); ++i) names.push_back(name_of(static_cast<ItemState>(i)));
  if (!state.empty() && std::ranges::find(names, state) == names.end()) {
    const auto nearest = nearest_word(state, names);
    return Fault{"\"" + state + "\" is no state of an item", "--state", "",
                 nearest ? "Did you mean \"" + *nearest + "\"?" : "Write received, held, engraved, …"};
  }
  const Search search(options.words);
  if (!options.words.empty()) std::erase_if(items, [&](const LedgerItem& item) { return !search.finds(item); });
  // Orders as they came, the items of each together.
  std::map<std::string, std::int64_t> came;
  for (const LedgerItem& item : items) {
    const auto [order, is_new] = came.emplace(item.order_number, item.id);
    if (!is_new) order->second = std::min(order->second, item.id);
  }
  std::ranges::sort(items, {},
                    [&](const LedgerItem& item) { return std::pair(came[item.order_number], item.ordinal); });
  return items;
}

}  // namespace

Result<Account> run_history(const Shop& shop, const HistoryOptions& options) {
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const Result<std::string> number = item_typed(options.subject);
    if (!number.ok() && !tell_found(ledger, options.subject, account)) return number.fault();
    if (!number.ok()) return std::nullopt;
    if (const auto item = ledger.item_numbered(*number)) {
      tell_item(ledger, *item, account);
      return std::nullopt;
    }
    if (const auto blank = ledger.blank(options.subject)) {
      account.told.push_back("blank " + blank->id + " is " + std::string(name_of(blank->state)) +
                             (blank->reason.empty() ? "" : ": " + blank->reason));
      tell(ledger.story_of_blank(blank->id), account);
      return std::nullopt;
    }
    if (const auto sheet = sheet_meant(ledger, options.subject); sheet.ok()) {
      tell_sheet(ledger, *sheet, account);
      return std::nullopt;
    }
    if (options.subject.starts_with("row-")) {
      const auto row = row_meant(ledger, options.subject);
      if (!row.ok()) return row.fault();
      tell_row(ledger, *row, account);
      return std::nullopt;
    }
    const auto items = ledger.items_of_order(options.subject);
    for (const LedgerItem& item : items) tell_item(ledger, item, account);
    for (const LedgerHeldRow& row : ledger.held_rows()) {
      if (row.order_number == options.subject) tell_row(ledger, row, account);
    }
    if (!account.told.empty() || tell_found(ledger, options.subject, account)) return std::nullopt;
    const auto nearest = ledger.nearest_number(*number);
    return Fault{"nothing is called " + options.subject, "", "no item, no order, no blank and no sheet of the ledger",
                 nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
  });
}

Result<Account> run_list(const Shop& shop, const ListOptions& options) {
  return from_ledger(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const auto items = items_for(ledger, options);
    if (!items.ok()) return items.fault();
    std::string csv = "Item,Words,Design,State,Note,Customer\r\n";
    for (const LedgerItem& item : *items) list_item(ledger, item, account, csv);
    const std::vector<LedgerHeldRow> rows = rows_for(ledger, options);
    if (items->empty() && rows.empty()) account.told.emplace_back("No items");
    for (const LedgerHeldRow& row : rows) list_row(row, account, csv);
    tell_questions(ledger, account);
    tell_stale(ledger, "", account);
    if (options.csv.empty()) return std::nullopt;
    if (auto fault = check_place(options.csv)) return fault;
    if (auto fault = write_file(options.csv, csv)) return fault;
    account.files = {options.csv};
    return std::nullopt;
  });
}

Result<Account> run_backup(const Shop& shop, const LedgerCall& call, const std::filesystem::path& file) {
  return from_ledger(shop, call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    if (auto fault = ledger.back_up(file)) return fault;
    account.files = {file};
    account.told.emplace_back("The ledger is copied, complete as it is now");
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
