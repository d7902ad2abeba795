#include "shop/bookings.h"

namespace ordinatio::inline shop {

std::vector<LedgerPlacement> still_on(Ledger& ledger, const LedgerSheet& sheet) {
  std::vector<LedgerPlacement> placements = ledger.placements_on(sheet.number);
  std::erase_if(placements, [](const LedgerPlacement& one) { return one.state != LedgerPlacement::State::on_sheet; });
  return placements;
}

}  // namespace ordinatio::inline shop
