// Orders set, on nominal pieces or measured ones, and handed on one item after the other. Of this folder alone.
#pragma once

#include "shop/piece_choice.h"

namespace ordinatio {

/// What becomes of an item that has been set, or is held.
using TakeItem = std::function<MaybeFault(const Order& order, int ordinal, const SetOrder& set)>;

/// Every item on a nominal piece.
MaybeFault set_nominal(Composer& composer, const std::vector<Order>& orders, const TakeItem& take,
                       const Progress& progress);
/// Every item on the measured piece that the choice gives it.
MaybeFault set_on_pieces(Composer& composer, Workroom& workroom, const std::vector<Order>& orders, PieceChoice& choice,
                         Account& account, const TakeItem& take, const Progress& progress);

}  // namespace ordinatio
