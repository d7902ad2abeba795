#include <algorithm>

#include "base/local_time.h"
#include "shop/bookings.h"
#include "shop/intake.h"

namespace ordinatio {
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

void tell_item(Ledger& ledger, const LedgerItem& item, Account& account) {
  account.told.push_back(named_with_words(item) + " is " + now_text(ledger, item));
  if (!item.note.empty()) account.told.push_back("note to the maker: " + words_in_line(item.note));
  tell(ledger.story_of_item(item), account);
}

void tell_sheet(Ledger& ledger, const LedgerSheet& sheet, Account& account) {
  account.told.push_back(sheet.name + ", in " + sheet.folder + (sheet.written ? "" : ", not in its place yet"));
  tell(ledger.story_of_sheet(sheet), account);
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    account.told.push_back(
        "pocket " + std::to_string(placement.pocket) + (placement.blank.empty() ? "" : ", blank " + placement.blank) +
        ": " + named_with_words(*ledger.item(placement.item)) + ", " + std::string(name_of(placement.state)) +
        (placement.reason.empty() ? "" : ": " + placement.reason));
  }
}

/// One line of the list, and one row of the CSV.
void list_item(Ledger& ledger, const LedgerItem& item, Account& account, std::string& csv) {
  const std::string state = now_text(ledger, item);
  account.told.push_back(named_with_words(item) + "  " + state);
  for (const std::string& cell : {with_check(item.number), item.words, item.design, state, item.note}) {
    csv += csv_field(cell) + ",";
  }
  csv.back() = '\r';
  csv += '\n';
}

Result<std::vector<LedgerItem>> items_for(Ledger& ledger, const std::string& state) {
  std::vector<LedgerItem> items;
  for (int i = 0; i <= static_cast<int>(ItemState::cancelled); ++i) {
    const auto one = static_cast<ItemState>(i);
    const bool open = one != ItemState::packed && one != ItemState::cancelled;
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

/// The sheet files of a folder that the book does not know.
void look_for_strays(Ledger& ledger, const Shop& shop, Account& account) {
  std::map<std::filesystem::path, std::vector<std::string>> known;
  for (const LedgerSheet& sheet : ledger.sheets()) {
    for (const auto& [name, checksum] : sheet.files) known[folder_on_disk(shop, sheet)].push_back(name);
  }
  for (auto& [folder, names] : known) {
    std::ranges::sort(names);
    std::error_code ignored;
    for (const auto& entry : std::filesystem::directory_iterator(folder, ignored)) {
      const std::string name = entry.path().filename().string();
      const bool is_sheet =
          std::ranges::any_of(std::initializer_list<std::string_view>{"sheet-", "remake-", "rest-", "stands-"},
                              [&](std::string_view stem) { return name.starts_with(stem); });
      if (!is_sheet || !entry.is_regular_file() || std::ranges::binary_search(names, name)) continue;
      account.held.push_back(
          {name,
           {"the ledger does not know this sheet", entry.path().string(), "", "Do not engrave it; move it away"}});
    }
  }
}

void check_files(Ledger& ledger, const Shop& shop, Account& account) {
  for (const LedgerSheet& sheet : ledger.sheets()) {
    const auto placements = ledger.placements_on(sheet.number);
    const bool is_void = !placements.empty() && std::ranges::all_of(placements, [](const LedgerPlacement& one) {
      return one.state == LedgerPlacement::State::withdrawn;
    });
    if (!sheet.written) {
      account.held.push_back({sheet.name,
                              {"a command was interrupted before the sheet was in its place", "", "",
                               "The next command that writes into the ledger finishes it"}});
      continue;
    }
    for (const auto& [name, checksum] : sheet.files) {
      const auto file = folder_on_disk(shop, sheet) / name;
      const Result<std::string> bytes = read_file(file);
      if (bytes && sha256_hex(*bytes) == checksum) continue;
      if (!bytes && is_void) continue;  // nothing of it is to be engraved any more
      account.held.push_back({sheet.name,
                              {bytes ? "the file is not what was written" : "the file is gone", file.string(),
                               bytes ? "its checksum differs from the ledger's" : "", "Put it back from a copy"}});
    }
  }
}

}  // namespace

Result<Account> run_history(const Shop& shop, const HistoryOptions& options) {
  return from_book(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const Result<std::string> number = item_typed(options.subject);
    if (!number) return number.fault();
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
    if (const auto sheet = sheet_meant(ledger, options.subject)) {
      tell_sheet(ledger, *sheet, account);
      return std::nullopt;
    }
    const auto items = ledger.items_of_order(options.subject);
    for (const LedgerItem& item : items) tell_item(ledger, item, account);
    if (!items.empty()) return std::nullopt;
    const auto nearest = ledger.nearest_number(*number);
    return Fault{"nothing is called " + options.subject, "", "no item, no order, no blank and no sheet of the ledger",
                 nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
  });
}

Result<Account> run_list(const Shop& shop, const ListOptions& options) {
  return from_book(shop, options.call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const auto items = items_for(ledger, options.state);
    if (!items) return items.fault();
    std::string csv = "Item,Words,Design,State,Note\r\n";
    for (const LedgerItem& item : *items) list_item(ledger, item, account, csv);
    if (items->empty()) account.told.emplace_back("No items");
    tell_questions(ledger, account);
    if (options.csv.empty()) return std::nullopt;
    if (auto fault = write_file(options.csv, csv)) return fault;
    account.files = {options.csv};
    return std::nullopt;
  });
}

Result<Account> run_backup(const Shop& shop, const BookCall& call, const std::filesystem::path& file) {
  return from_book(shop, call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    if (auto fault = ledger.back_up(file)) return fault;
    account.files = {file};
    account.told.emplace_back("The ledger is copied, complete as it is now");
    return std::nullopt;
  });
}

Result<Account> run_check(const Shop& shop, const BookCall& call) {
  return from_book(shop, call, [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& what : ledger.contradictions()) {
      account.held.push_back(
          {"ledger", {what, "", "", "Keep the file as it is, and put the last backup in its place"}});
    }
    check_files(ledger, shop, account);
    look_for_strays(ledger, shop, account);
    std::string counts;
    for (const StateCount& state : ledger.items_by_state()) {
      counts += (counts.empty() ? "" : ", ") + std::to_string(state.count) + " " + state.what;
    }
    account.told.push_back("Items: " + (counts.empty() ? "none" : counts));
    account.told.push_back(account.held.empty() ? "The ledger is sound, and every sheet's files are what was written"
                                                : "The ledger has " + std::to_string(account.held.size()) + " faults");
    return std::nullopt;
  });
}

}  // namespace ordinatio
