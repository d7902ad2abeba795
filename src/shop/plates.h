#pragma once

#include "base/account.h"
#include "bed/plates.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct PlateOptions {
  LedgerCall call{};
  std::vector<std::string> items;  // as typed; empty: all that are engraved and not packed yet
  PlateWish wish{};
  std::filesystem::path out;
};
/// Sheets of codes for the backs of the pieces. Nothing is booked. Faults: no ledger, no such item, plates too small.
Result<Account> run_plates(const Shop& shop, const PlateOptions& options);

}  // namespace ordinatio::inline shop
