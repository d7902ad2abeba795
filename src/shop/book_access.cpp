#include "shop/book_access.h"

#include <algorithm>
#include <charconv>

#include "shop/order_rows.h"

namespace ordinatio {
namespace fs = std::filesystem;
namespace {

bool has_checksum(const fs::path& file, const std::string& checksum) {
  const Result<std::string> bytes = read_file(file);
  return bytes && sha256_hex(*bytes) == checksum;
}

/// Moves what is not in its place yet. False: a file is neither here nor there.
Result<bool> finish_files(const fs::path& folder, const LedgerSheet& sheet) {
  const fs::path waiting = unfinished_folder(folder, sheets_stem);
  for (const auto& [name, checksum] : sheet.files) {
    if (has_checksum(folder / name, checksum)) continue;
    if (!has_checksum(waiting / name, checksum)) return false;
    if (std::error_code error; fs::exists(folder / name, error)) {
      if (auto fault = set_aside(folder, {name})) return *std::move(fault);
    }
    if (auto fault = move_file(waiting / name, folder / name)) return *std::move(fault);
  }
  sync_folder(folder);
  return true;
}

/// A sheet without its manifest was never in its place; one that has it lacks files that came later, which `check` tells.
bool is_lost(const fs::path& folder, const LedgerSheet& sheet) {
  const std::string manifest = sheet.name + ".json";
  const auto known = sheet.files.find(manifest);
  return known == sheet.files.end() || !has_checksum(folder / manifest, known->second);
}

/// Its files are gone: nothing of the sheet can have been engraved, so its items wait again.
void give_up(Ledger& ledger, const LedgerSheet& sheet) {
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    if (placement.state != LedgerPlacement::State::on_sheet) continue;
    ledger.withdraw(placement, "the sheet's files were lost before they were in their place", BlankFate::free);
    ledger.set_state(*ledger.item(placement.item), ItemState::received);
  }
}

MaybeFault finish_planned(const Shop& shop, Ledger& ledger) {
  const std::vector<LedgerSheet> planned = ledger.planned_sheets();
  if (planned.empty()) return std::nullopt;
  ledger.begin("recovery");
  for (const LedgerSheet& sheet : planned) {
    const Result<bool> finished = finish_files(folder_on_disk(shop, sheet), sheet);
    if (!finished) return finished.fault();
    if (!*finished && is_lost(folder_on_disk(shop, sheet), sheet)) give_up(ledger, sheet);
    ledger.mark_written(sheet.number);
  }
  for (const LedgerSheet& sheet : planned) {
    std::error_code ignored;
    fs::remove_all(unfinished_folder(folder_on_disk(shop, sheet), sheets_stem), ignored);
    sync_folder(folder_on_disk(shop, sheet));
  }
  ledger.commit();
  return std::nullopt;
}

}  // namespace

Result<std::unique_ptr<Ledger>> open_book(const Shop& shop, const BookCall& call, Ledger::Access access) {
  if (shop.ledger.empty()) {
    return Fault{"this workshop keeps no ledger", (shop.folder / "shop.toml").string(), "it names none",
                 "Write [ledger] file = \"workshop.ledger\" there"};
  }
  auto ledger =
      Ledger::open({shop.folder / shop.ledger, call.now, call.cause, call.wait, call.clock_is_right, call.vfs}, access);
  if (!ledger || access == Ledger::Access::read) return ledger;
  if (auto fault = finish_planned(shop, **ledger)) return *std::move(fault);
  // Whoever gives another command has gone on.
  if (const auto last = (*ledger)->unheard(); last && last->cause != call.cause) (*ledger)->acknowledge();
  return ledger;
}

std::optional<Account> done_before(const Shop& shop, Ledger& ledger, const BookCall& call) {
  const auto last = ledger.unheard();
  if (!last || last->cause != call.cause) return std::nullopt;
  Account account;
  account.told.push_back("This was done by a run that was cut off; it is not done again: " + last->cause);
  for (const int number : last->sheets) {
    const LedgerSheet sheet = *ledger.sheet(number);
    for (const auto& [name, checksum] : sheet.files) account.files.push_back(folder_on_disk(shop, sheet) / name);
    account.items_set += ledger.placements_on(number).size();
    ++account.sheets;
  }
  return account;
}

MaybeFault acknowledge(const Shop& shop, const BookCall& call) {
  if (!has_book(shop)) return std::nullopt;
  return guarded([&]() -> MaybeFault {
    const auto ledger =
        Ledger::open({shop.folder / shop.ledger, call.now, call.cause, call.wait, call.clock_is_right, call.vfs},
                     Ledger::Access::write);
    if (!ledger) return ledger.fault();
    if (const auto last = (*ledger)->unheard(); last && last->cause == call.cause) (*ledger)->acknowledge();
    return std::nullopt;
  });
}

bool has_book(const Shop& shop) {
  std::error_code error;
  return !shop.ledger.empty() && fs::exists(shop.folder / shop.ledger, error);
}

Result<std::unique_ptr<Ledger>> open_for_export(const Shop& shop, const BookCall& call, bool dry_run) {
  if (!dry_run || shop.ledger.empty() || has_book(shop)) {
    return open_book(shop, call, Ledger::Access::write);
  }
  return Ledger::open({{}, call.now, call.cause, call.wait, call.clock_is_right, call.vfs}, Ledger::Access::write);
}

std::string words_in_line(std::string_view words) { return shown(words); }

std::string named_with_words(const LedgerItem& item) {
  return with_check(item.number) + " " + words_in_line(item.words);
}

Result<LedgerItem> item_meant(Ledger& ledger, const BookCall& call, const std::string& typed, const std::string& what) {
  const Result<std::string> number = item_typed(typed);
  if (!number) return number.fault();
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

std::string take_off_sheet(Ledger& ledger, const LedgerPlacement& placement, const std::string& reason) {
  const std::string place = ledger.sheet(placement.sheet)->name + ", pocket " + std::to_string(placement.pocket);
  ledger.withdraw(placement, reason, BlankFate::free);
  return ledger.item(placement.item)->number + " comes off " + place + ": do not engrave it there";
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

Result<std::vector<fs::path>> book_sheets(Ledger& ledger, Outbox& outbox, std::vector<NewSheet> sheets) {
  const Result<std::map<std::string, std::string>> checksums = outbox.seal();
  if (!checksums) return checksums.fault();
  for (NewSheet& sheet : sheets) {
    for (const auto& [name, checksum] : *checksums) {
      if (name.starts_with(sheet.sheet.name + ".")) sheet.sheet.files.emplace(name, checksum);
    }
    if (auto fault = ledger.plan_sheet(sheet)) {
      outbox.discard();
      return *std::move(fault);
    }
  }
  ledger.commit();
  Result<std::vector<fs::path>> files = outbox.deliver();
  if (!files) return files;
  ledger.begin("delivery");
  for (const NewSheet& sheet : sheets) ledger.mark_written(sheet.sheet.number);
  ledger.commit();
  return files;
}

Result<std::vector<fs::path>> book_files(Ledger& ledger, Outbox& outbox, const LedgerSheet& sheet,
                                         const std::string& what) {
  const Result<std::map<std::string, std::string>> checksums = outbox.seal();
  if (!checksums) return checksums.fault();
  ledger.plan_files(sheet, *checksums, what);
  ledger.commit();
  Result<std::vector<fs::path>> files = outbox.deliver();
  if (!files) return files;
  ledger.begin("delivery");
  ledger.mark_written(sheet.number);
  ledger.commit();
  return files;
}

Order order_of(const LedgerItem& item) {
  Order order;
  order.number = item.order_number;
  order.first = item.ordinal;
  order.text = item.words;
  order.design = item.design;
  if (!item.pinned.empty()) order.blanks = {item.pinned};
  if (const Result<PieceWish> wish = parse_wish(item.wish, item.number)) order.wish = *wish;
  order.note = item.note;
  order.source = item.source;
  order.customer = item.customer;
  return order;
}

}  // namespace ordinatio
