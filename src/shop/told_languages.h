// In whose forms an order's words are set, as far as its letters, the whole order and the file tell. Of this folder alone.
//
// The file is what was read at once: every command that is given the export sees the same one. With a ledger it is what was
// taken in together with the item, as it came: orders of another day change nothing. A sheet's manifest keeps what was told,
// so that remakes come out the same.
#pragma once

#include "ledger/ledger.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// `orders`: all of a file, each of one text.
void tell_languages(std::vector<Order>& orders, const Workroom& workroom);
/// Orders of the ledger.
void tell_languages(std::vector<Order>& orders, Ledger& ledger, const Workroom& workroom);

}  // namespace ordinatio::inline shop
