// Orders set, on nominal pieces or measured ones, and handed on one item after the other. Of this folder alone.
#pragma once

#include "base/account.h"
#include "shop/piece_choice.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {

/// What becomes of an item that has been set, or is held.
using TakeItem = std::function<MaybeFault(const Order& order, int ordinal, SetOrder set)>;

/// What sets items, and the sheets that are told what will come.
struct Laying {
  const Workroom& workroom;
  Composer& composer;
  SheetRun& run;
  Account& account;
};

/// Every item on a nominal piece.
MaybeFault set_nominal(const Laying& at, const std::vector<Order>& orders, const TakeItem& take,
                       const Progress& progress);
/// Every item on the measured piece that the choice gives it.
MaybeFault set_on_pieces(const Laying& at, const std::vector<Order>& orders, PieceChoice& choice, const TakeItem& take,
                         const Progress& progress);
/// An item as it was set, or held where no bed takes it.
SetOrder held_without_bed(const Workroom& workroom, const Order& order, SetOrder set);

}  // namespace ordinatio::inline shop
