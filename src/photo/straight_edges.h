// In: points along a piece's edge. Out: a polygon of few corners. Never: looks at a picture. Of this folder alone.
#pragma once

#include <span>

#include "photo/contour.h"

namespace ordinatio::inline photo {

// ---- straight_edges.cpp ----
/// Simplified to outline_tolerance (D. Douglas and T. Peucker, "Algorithms for the reduction of the number of points required to
/// represent a digitized line or its caricature", Cartographica 10(2), 1973); long sides are fitted by least squares, and meet in
/// corners. A corner that is blunt by less than `blunt_corner` comes out sharp: blur has blunted it.
Polygon straightened(std::span<const EdgePoint> edge);
inline constexpr double blunt_corner = 0.8;  // mm

}  // namespace ordinatio::inline photo
