#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct DayOptions {
  std::filesystem::path orders, out;
  std::filesystem::path blanks;  // empty: as shop.toml says
  bool svg = true, dxf = true, pdf = true, png = false;
  std::string date;      // for designs with a date mark
  unsigned workers = 0;  // 0: all cores
  // With a ledger: the orders are taken in, and everything that waits is laid on sheets.
  LedgerCall call{};
  std::string channel{};  // see IntakeOptions
  bool dry_run = false;   // tell what would be taken in, and change nothing
};
/// What the day would lay, and its account: nothing of it stays.
Result<Account> day_to_see(const Shop& shop, const DayOptions& options, std::vector<Sheet>& sheets,
                           const Progress& progress = {});
Result<Account> run_day(const Shop& shop, const DayOptions& options, const Progress& progress = {});

}  // namespace ordinatio::inline shop
