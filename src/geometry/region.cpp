#include <algorithm>
#include <cmath>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
namespace {

constexpr double far_away = 1e6;  // mm; larger than any bed, so that an unbounded region becomes a large square

/// The part of a convex polygon inside a half-plane (Sutherland and Hodgman 1974).
Polygon clipped(const Polygon& polygon, const HalfPlane& edge) {
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double out_a = dot(edge.normal, a) - edge.offset, out_b = dot(edge.normal, b) - edge.offset;
    if (out_a <= 0) kept.push_back(a);
    if ((out_a < 0 && out_b > 0) || (out_a > 0 && out_b < 0)) kept.push_back(a + out_a / (out_a - out_b) * (b - a));
  }
  return kept;
}

}  // namespace

ConvexRegion region_of(const Polygon& convex) {
  ConvexRegion region;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Point a = convex[i], along = convex[(i + 1) % convex.size()] - a;
    const double span = length(along);
    if (span == 0) continue;
    const Point normal{along.y / span, -along.x / span};  // outward, the polygon being counter-clockwise
    region.edges.push_back({normal, dot(normal, a)});
  }
  return region;
}

ConvexRegion intersection(const ConvexRegion& a, const ConvexRegion& b) {
  ConvexRegion both = a;
  both.edges.insert(both.edges.end(), b.edges.begin(), b.edges.end());
  return both;
}

Polygon polygon_of(const ConvexRegion& region) {
  Polygon polygon{{-far_away, -far_away}, {far_away, -far_away}, {far_away, far_away}, {-far_away, far_away}};
  for (const HalfPlane& edge : region.edges) polygon = clipped(polygon, edge);
  return area_of(polygon) > 0 ? hull_of(std::move(polygon)).vertices : Polygon{};
}

double distance_outside(const ConvexRegion& region, Point p) {
  double distance = -far_away;
  for (const HalfPlane& edge : region.edges) distance = std::max(distance, dot(edge.normal, p) - edge.offset);
  return distance;
}

bool is_convex(const Polygon& polygon) {
  double turned = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point in = polygon[(i + 1) % polygon.size()] - polygon[i];
    const Point out = polygon[(i + 2) % polygon.size()] - polygon[(i + 1) % polygon.size()];
    if (cross(in, out) <= 0) return false;
    turned += std::atan2(cross(in, out), dot(in, out));
  }
  return polygon.size() > 2 && turned < 7;  // one full turn, 2π: a star turns more often
}

}  // namespace ordinatio::inline geometry
