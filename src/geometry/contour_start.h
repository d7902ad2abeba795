#pragma once

#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// Whether a path of one contour returns to where it began.
bool is_closed(const Path& contour);

/// Where a contour may begin, in its own order: a closed one at each of its corners (where two of its lines or curves meet), an
/// open one at either end.
std::vector<Point> starts_of(const Path& contour);

/// The same contour from that place of starts_of on: a closed one turns as before, an open one is reversed for its far end.
Path started_at(const Path& contour, std::size_t start);

}  // namespace ordinatio::inline geometry
