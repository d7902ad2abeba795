#include "shop/ledger_access.h"

#include <algorithm>
#include <charconv>

#include "base/account.h"
#include "orders/orders.h"
#include "shop/recovery.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;
Result<std::unique_ptr<Ledger>> open_ledger(const Shop& shop, const LedgerCall& call, Ledger::Access access) {
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

MaybeFault acknowledge(const Shop& shop, const LedgerCall& call, const Account& account) {
  if (account.entries.empty() || !has_ledger(shop)) return std::nullopt;
  return guarded([&]() -> MaybeFault {
    const auto ledger =
        Ledger::open({shop.folder / shop.ledger, call.now, call.cause, call.wait, call.clock_is_right, call.vfs},
                     Ledger::Access::write);
    if (!ledger.ok()) return ledger.fault();
    (*ledger)->mark_heard(account.entries);
    return std::nullopt;
  });
}

bool has_ledger(const Shop& shop) {
  std::error_code error;
  return !shop.ledger.empty() && fs::exists(shop.folder / shop.ledger, error);
}

Result<std::unique_ptr<Ledger>> open_to_see(const Shop& shop, const LedgerCall& call) {
  if (shop.ledger.empty() || has_ledger(shop)) {
    return open_ledger(shop, call, Ledger::Access::write);
  }
  return Ledger::open({{}, call.now, call.cause, call.wait, call.clock_is_right, call.vfs}, Ledger::Access::write);
}

Result<LedgerItem> item_meant(Ledger& ledger, const LedgerCall& call, const std::string& typed,
                              const std::string& what) {
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

std::string folder_in_ledger(const Shop& shop, const fs::path& folder) {
  std::error_code error;
  const fs::path all = fs::absolute(folder, error).lexically_normal();
  const fs::path within = all.lexically_relative(fs::absolute(shop.folder, error).lexically_normal());
  return !within.empty() && *within.begin() != ".." ? within.string() : all.string();
}

fs::path folder_on_disk(const Shop& shop, const LedgerSheet& sheet) { return shop.folder / sheet.folder; }

Order order_of(const LedgerItem& item) {
  Order order;
  order.number = item.order_number;
  order.first = item.ordinal;
  order.text = item.words;
  order.design = item.design;
  if (!item.pinned.empty()) order.blanks = {item.pinned};
  const Result<PieceWish> wish = parse_wish(item.wish, item.number);
  if (wish.ok()) order.wish = *wish;
  order.note = item.note;
  order.source = item.source;
  order.customer = item.customer;
  order.setting = kept_setting(item.setting);
  if (!order.setting.design.empty()) order.design = order.setting.design;
  return order;
}

}  // namespace ordinatio::inline shop
