// Sheets that a command left planned when it was cut off. Of this folder alone.
#pragma once

#include "ledger/ledger.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// Brings their files to their place and books that; where the files are lost, the items wait again, or the sheet is written
/// anew.
MaybeFault finish_planned(const Shop& shop, Ledger& ledger);

}  // namespace ordinatio::inline shop
