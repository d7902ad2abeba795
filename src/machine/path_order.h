// In: contours that a machine follows one after the other, mm.
// Out: the same contours in an order, from starts and in directions that leave little way between them.
// Never: changes a contour's shape, or the way round that a closed one is followed. Of this folder alone.
#pragma once

#include <optional>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

/// Contours of one piece, and where the machine comes from and goes to.
struct FollowedPiece {
  std::vector<Path> contours;
  /// What lies in a closed contour is followed before it, as it must be where they are cut: else it would come loose.
  bool inner_first = false;
};

/// Pieces are followed one by one, in the order given; in each the way between its contours is short: the shortest for few
/// contours, else by nearest neighbour, 2-opt and Or-opt, on instances of TSPLIB within 5 % of the best known. The result is the
/// same in whatever order the contours come.
void order_contours(std::vector<FollowedPiece>& pieces);
/// More contours in one piece, or such as lie in one another very deep (nesting.h), are followed from left to right, or the
/// smallest first where they are cut: two seconds' work.
inline constexpr std::size_t most_ordered = 20'000;

}  // namespace ordinatio::inline machine
