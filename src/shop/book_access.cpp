#include "shop/book_access.h"

#include <algorithm>
#include <charconv>

#include "base/account.h"
#include "csv/shown.h"
#include "orders/order_rows.h"
#include "orders/orders.h"
#include "shop/kept_account.h"
#include "shop/recovery.h"
#include "shop/renewal.h"

namespace ordinatio {
namespace fs = std::filesystem;
Result<std::unique_ptr<Ledger>> open_book(const Shop& shop, const BookCall& call, Ledger::Access access) {
  if (shop.ledger.empty()) {
    return Fault{"this workshop keeps no ledger", (shop.folder / "shop.toml").string(), "it names none",
                 "Write [ledger] file = \"workshop.ledger\" there"};
  }
  auto ledger =
      Ledger::open({shop.folder / shop.ledger, call.now, call.cause, call.wait, call.clock_is_right, call.vfs}, access);
  if (!ledger.ok() || access == Ledger::Access::read) return ledger;
  if (auto fault = finish_planned(shop, **ledger)) return *std::move(fault);
  return ledger;
}

std::string asked_by(const BookCall& call, const std::string& input) {
  if (!call.to_be_heard) return "";
  return input.empty() ? call.cause : call.cause + "\n" + input;
}

void tell_unheard(const Shop& shop, Ledger& ledger, Account& account) {
  std::vector<std::string> lines;
  for (const Ledger::Unheard& last : ledger.unheard()) {
    if (std::ranges::find(account.entries, last.entry) != account.entries.end()) continue;
    std::ranges::copy(told_late(last.cause, kept_account(last.account, shop)), std::back_inserter(lines));
    account.entries.push_back(last.entry);
    account.warnings.push_back("\"" + last.cause + "\" was cut off before its account was read: it stands above");
  }
  account.told.insert(account.told.begin(), lines.begin(), lines.end());
}

std::optional<Account> done_before(const Shop& shop, Ledger& ledger, const std::string& asked) {
  if (asked.empty()) return std::nullopt;
  const std::vector<Ledger::Unheard> unheard = ledger.unheard();
  const auto last = std::ranges::find(unheard, asked, &Ledger::Unheard::asked);
  if (last == unheard.end()) return std::nullopt;
  Account account = kept_account(last->account, shop);
  account.entries.push_back(last->entry);
  return account;
}

void commit(const Shop& shop, Ledger& ledger, Account& account) {
  const std::string text = text_to_keep(account, shop);
  if (!account.entries.empty()) {
    ledger.change_account(account.entries.front(), text);
  } else if (const auto entry = ledger.keep_account(text)) {
    account.entries.push_back(*entry);
  }
  ledger.commit();
}

void finish(const Shop& shop, Ledger& ledger, const BookCall& call, bool was_done, const std::string& asked,
            Account& account) {
  renew_sheets(shop, ledger, asked, account);
  if (was_done) {
    account.told.insert(account.told.begin(),
                        "This was done by a run that was cut off; it is not done again: " + call.cause);
  }
  if (call.to_be_heard) tell_unheard(shop, ledger, account);
}

MaybeFault acknowledge(const Shop& shop, const BookCall& call, const Account& account) {
  if (account.entries.empty() || !has_book(shop)) return std::nullopt;
  return guarded([&]() -> MaybeFault {
    const auto ledger =
        Ledger::open({shop.folder / shop.ledger, call.now, call.cause, call.wait, call.clock_is_right, call.vfs},
                     Ledger::Access::write);
    if (!ledger.ok()) return ledger.fault();
    (*ledger)->mark_heard(account.entries);
    return std::nullopt;
  });
}

bool has_book(const Shop& shop) {
  std::error_code error;
  return !shop.ledger.empty() && fs::exists(shop.folder / shop.ledger, error);
}

Result<std::unique_ptr<Ledger>> open_to_see(const Shop& shop, const BookCall& call) {
  if (shop.ledger.empty() || has_book(shop)) {
    return open_book(shop, call, Ledger::Access::write);
  }
  return Ledger::open({{}, call.now, call.cause, call.wait, call.clock_is_right, call.vfs}, Ledger::Access::write);
}

Result<LedgerItem> item_meant(Ledger& ledger, const BookCall& call, const std::string& typed, const std::string& what) {
  const Result<std::string> number = item_typed(typed);
  if (!number.ok()) return number.fault();
  const auto item = ledger.item_numbered(*number);
  if (!item) {
    const auto nearest = ledger.nearest_number(*number);
    return Fault{"there is no item " + *number, "", "the ledger does not know it",
                 nearest ? "Did you mean " + *nearest + "?" : "Look at the list: ordinatio list"};
  }
  if (!has_check(typed) && call.confirm && !call.confirm(what + " " + named_with_words(*item) + "?")) {
    return Fault{"nothing was changed", item->number, "", "Give the number with its check character to go on unasked"};
  }
  return *item;
}

namespace {

/// By its name, or by a file of it; the zeros of its number may be left out: sheet-6 is sheet-006.
std::optional<LedgerSheet> sheet_called(Ledger& ledger, const std::string& typed) {
  const std::string name = fs::path(typed).stem().string();
  if (auto sheet = ledger.sheet_named(name)) return sheet;
  const std::size_t hyphen = name.rfind('-');
  if (hyphen == std::string::npos) return std::nullopt;
  int number = 0;
  const auto [end, error] = std::from_chars(name.data() + hyphen + 1, name.data() + name.size(), number);
  if (error != std::errc() || end != name.data() + name.size()) return std::nullopt;
  return ledger.sheet_named(numbered(name.substr(0, hyphen + 1), number));
}

}  // namespace

Result<LedgerSheet> sheet_meant(Ledger& ledger, const std::string& typed) {
  int number = 0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), number);
  const bool is_number = error == std::errc() && end == typed.data() + typed.size();
  const auto sheet = is_number ? ledger.sheet(number) : sheet_called(ledger, typed);
  if (sheet) return *sheet;
  const std::vector<LedgerSheet> sheets = ledger.sheets();
  return Fault{"there is no sheet " + typed, "", "the ledger does not know it",
               sheets.empty() ? "There is none yet: ordinatio day"
                              : "Name one of " + sheets.front().name + " to " + sheets.back().name + ", or its number"};
}

fs::path sheets_folder(const Shop& shop, const fs::path& named) {
  return named.empty() ? shop.folder / "out" / "sheets" : named;
}

std::string folder_in_book(const Shop& shop, const fs::path& folder) {
  std::error_code error;
  const fs::path all = fs::absolute(folder, error).lexically_normal();
  const fs::path within = all.lexically_relative(fs::absolute(shop.folder, error).lexically_normal());
  return !within.empty() && *within.begin() != ".." ? within.string() : all.string();
}

fs::path folder_on_disk(const Shop& shop, const LedgerSheet& sheet) { return shop.folder / sheet.folder; }

namespace {

/// The book has changed already: whatever the system says, this is no bad input.
Fault not_moved_yet(Fault fault) {
  fault.cause = Fault::Cause::machine;
  fault.mend = "Mend the cause: the next command moves the files to their place. Nothing is lost";
  return fault;
}

}  // namespace

MaybeFault book_sheets(const Shop& shop, Ledger& ledger, Outbox& outbox, std::vector<NewSheet> sheets,
                       Account& account) {
  if (sheets.empty()) return std::nullopt;  // nothing to deliver: the outbox goes with the run
  const Result<std::map<std::string, std::string>> checksums = outbox.seal();
  if (!checksums.ok()) return checksums.fault();
  for (NewSheet& sheet : sheets) {
    for (const auto& [name, checksum] : *checksums) {
      if (name.starts_with(sheet.sheet.name + ".")) sheet.sheet.files.emplace(name, checksum);
    }
    if (auto fault = ledger.plan_sheet(sheet)) {
      outbox.discard();
      return *std::move(fault);
    }
  }
  account.files = outbox.files();
  commit(shop, ledger, account);
  if (const auto files = outbox.deliver(); !files.ok()) return not_moved_yet(files.fault());
  ledger.begin("delivery");
  for (const NewSheet& sheet : sheets) ledger.mark_written(sheet.sheet.number);
  ledger.commit();
  return std::nullopt;
}

Result<std::string> plan_files(const Shop& shop, Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet,
                               std::vector<std::string> aside, const std::string& what) {
  const Result<std::map<std::string, std::string>> checksums = outbox.seal();
  if (!checksums.ok()) return checksums.fault();
  const auto is_taken = [&](const std::string& folder) {
    const auto of_folder = [&](const auto& file) { return file.first.starts_with(folder + "/"); };
    return std::ranges::any_of(sheet.files, of_folder);
  };
  const std::string earlier = next_earlier(folder_on_disk(shop, sheet), is_taken);
  ledger.plan_files(sheet, {*checksums, aside, earlier, what + (aside.empty() ? "" : "; those before: " + earlier)});
  outbox.set_aside_first(std::move(aside), earlier);
  return earlier;
}

MaybeFault deliver_files(Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet) {
  if (const auto files = outbox.deliver(); !files.ok()) return not_moved_yet(files.fault());
  ledger.begin("delivery");
  ledger.mark_written(sheet.number);
  ledger.commit();
  return std::nullopt;
}

Order order_of(const LedgerItem& item) {
  Order order;
  order.number = item.order_number;
  order.first = item.ordinal;
  order.text = item.words;
  order.design = item.design;
  if (!item.pinned.empty()) order.blanks = {item.pinned};
  if (const Result<PieceWish> wish = parse_wish(item.wish, item.number); wish.ok()) order.wish = *wish;
  order.note = item.note;
  order.source = item.source;
  order.customer = item.customer;
  return order;
}

}  // namespace ordinatio
