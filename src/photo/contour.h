// In: which pixels are the piece. Out: its edge, as places on the table to a fraction of a pixel.
// Never: makes edges straight. Of this folder alone.
#pragma once

#include <optional>
#include <vector>

#include "photo/components.h"
#include "photo/photo.h"

namespace ordinatio::inline photo {

/// Where the edge of a thing is.
struct EdgePoint {
  Point place;         // mm
  bool exact = false;  // where the light is half-way between inside and outside; otherwise only a pixel's border
};
inline constexpr double edge_spacing = 0.5;       // mm from one edge point to the next
inline constexpr std::size_t most_edge = 10'000;  // edge points; a piece of five metres around has so many

// ---- contour.cpp ----
/// Around the mask's first component, counter-clockwise. Nothing where it is so ragged that it has more than most_edge.
std::optional<std::vector<EdgePoint>> edge_of(const Mask& mask, const TablePicture& table);

}  // namespace ordinatio::inline photo
