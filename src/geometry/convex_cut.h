// Contours told by the indices of their corners. Of this folder alone.
#pragma once

#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// A contour; the same place has the same index wherever it is met.
using CornerLoop = std::vector<std::size_t>;
struct CornerLoops {
  std::vector<Point> corners;
  std::vector<CornerLoop> loops;  // what they enclose lies on their left
};

// ---- loops.cpp ----
/// Edges that run both ways cancel, the rest are followed round: contours that touch or share edges come apart.
CornerLoops loops_of(const Polygons& area);
double area_of(const std::vector<Point>& corners, const CornerLoop& loop);

// ---- tie_holes.cpp ----
/// Each contour that goes round clockwise is tied to the one around it by a cut there and back, which crosses nothing.
void tie_holes(CornerLoops& area);

/// Corners nearer to a line than this share of the area's size lie on it.
inline constexpr double in_line = 1e-12;

// ---- loops.cpp ----
double extent_of(const std::vector<Point>& corners);

// ---- convex_cut.cpp ----
/// Whether the line from p to q enters the inside of a counter-clockwise triangle by more than `slack`.
bool enters(Point p, Point q, const std::array<Point, 3>& triangle, double slack);

}  // namespace ordinatio::inline geometry
