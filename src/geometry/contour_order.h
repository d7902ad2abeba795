#pragma once

#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// The contours of a path, one path each; a move that nothing follows is none.
std::vector<Path> contours_of(const Path& path);

/// The same contours, the smallest box first; of equal boxes the smaller area, else as they came. What lies inside another
/// contour has a smaller box: so a hole is cut before what it lies in comes loose.
Path smallest_first(const Path& path);

}  // namespace ordinatio::inline geometry
