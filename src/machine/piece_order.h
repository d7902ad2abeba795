// In: where pieces lie on the bed. Out: in which order they are worked on. Never: knows what is done to them.
// Of this folder alone.
#pragma once

#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

/// The first comes first; the others so that the gaps that the machine crosses from one to the next are small: nearest neighbour,
/// then 2-opt and Or-opt over all of them, with the distance of their middles where gaps are alike.
std::vector<std::size_t> order_of_pieces(const std::vector<Bounds>& boxes);
/// More pieces stay in the order in which they come: each is weighed against each.
inline constexpr std::size_t most_pieces = 500;

}  // namespace ordinatio::inline machine
