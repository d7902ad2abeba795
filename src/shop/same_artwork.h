// Whether a piece that is made need not be made again. Of this folder alone.
#pragma once

#include "intake/intake_row.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// Composes an item that is on a sheet or engraved with what is wanted now, on its own piece, and compares the artwork's hash
/// with that of what was made. Where its sheet's manifest is gone nobody can tell: it is taken for another.
std::function<bool(Ledger&, const LedgerItem&, const NewItem&)> same_artwork(const Shop& shop);

}  // namespace ordinatio::inline shop
