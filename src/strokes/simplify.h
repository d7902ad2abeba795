// Of this folder alone.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio::inline strokes {

/// A closed polygon of some of its corners, no edge further than `tolerance` from those left out (Ramer 1972, Douglas and
/// Peucker 1973). Fewer than three corners are none.
Polygon simplified(const Polygon& polygon, double tolerance);

}  // namespace ordinatio::inline strokes
