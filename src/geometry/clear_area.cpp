#include <algorithm>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
namespace {

/// The distance to one edge's line along a segment, from its start (0) to its end (1); positive inside.
struct DepthLine {
  double at_start, slope;
  [[nodiscard]] double at(double t) const { return at_start + slope * t; }
};

/// Whether an edge of `a` has all of `b` beyond it, but for `slack`.
bool parts(const ConvexHull& a, const ConvexHull& b, double slack) {
  return std::ranges::any_of(region_of(a.vertices).edges, [&](const HalfPlane& edge) {
    return std::ranges::all_of(b.vertices, [&](Point p) { return dot(edge.normal, p) >= edge.offset - slack; });
  });
}

}  // namespace

// The depth along the segment is the least of linear functions, so concave: between a rising and a falling one it is
// sought where these two meet, until no other is lower there. Each turn takes one that was not met before.
double depth_inside(const ConvexRegion& thing, Point a, Point b) {
  std::vector<DepthLine> lines;
  for (const HalfPlane& edge : thing.edges) {
    lines.push_back({edge.offset - dot(edge.normal, a), -dot(edge.normal, b - a)});
  }
  const auto lowest = [&lines](double t) {
    return *std::ranges::min_element(lines, {}, [t](const DepthLine& line) { return line.at(t); });
  };
  DepthLine rising = lowest(0), falling = lowest(1);
  if (rising.slope <= 0) return rising.at(0);
  if (falling.slope >= 0) return falling.at(1);
  double depth = 0;
  for (std::size_t turn = 0; turn < lines.size(); ++turn) {
    const double t = (falling.at_start - rising.at_start) / (rising.slope - falling.slope);
    const DepthLine next = lowest(t);
    depth = next.at(t);
    if (depth >= std::min(rising.at(t), falling.at(t))) break;
    (next.slope > 0 ? rising : falling) = next;
  }
  return depth;
}

bool overlap(const ConvexHull& a, const ConvexHull& b, double slack) {
  if (a.vertices.size() < 3 || b.vertices.size() < 3) return false;
  return !parts(a, b, slack) && !parts(b, a, slack);
}

}  // namespace ordinatio::inline geometry
