// An area of any shape as a clear area.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio {

/// The area as its convex hull less pieces of what lies inside the hull and not in the area: pockets of the outline,
/// holes. Nothing is lost against covering the area by maximal convex parts: a convex set inside the hull lies in the
/// area exactly if no piece meets its interior, and two convex sets are always parted by a line.
inline ClearArea clear_area_of(const Polygons& allowed) {
  std::vector<Point> points;
  for (const Polygon& polygon : allowed) points.insert(points.end(), polygon.begin(), polygon.end());
  const ConvexHull hull = hull_of(std::move(points));
  // What is not allowed has the hull for its outline and the allowed contours, turned round, for its holes; edges that
  // both have cancel, and pockets are left.
  Polygons rest{hull.vertices};
  for (const Polygon& polygon : allowed) rest.emplace_back(polygon.rbegin(), polygon.rend());
  return {region_of(hull.vertices), convex_pieces(rest)};
}

}  // namespace ordinatio
