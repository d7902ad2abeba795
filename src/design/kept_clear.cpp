#include <algorithm>
#include <cmath>
#include <numbers>

#include "design/layers.h"

namespace ordinatio::inline design {
namespace {

constexpr double weld_grid = 1e-4;  // mm; outlines that cross themselves are welded on it

/// A polygon around a circle, its edges touching it, four of them upright and level.
Polygon around_circle(Point centre, double radius, double sagitta = kept_clear_sagitta) {
  // An edge seen under the angle 2a touches the circle in its middle; its ends lie at radius / cos a.
  const double widest = std::acos(radius / (radius + sagitta));
  const int count = 4 * std::max(1, static_cast<int>(std::ceil(std::numbers::pi / 4 / widest)));
  const double reach = radius / std::cos(std::numbers::pi / count);
  Polygon polygon;
  for (int i = 0; i < count; ++i) {
    const double angle = (2 * i + 1) * std::numbers::pi / count;
    polygon.push_back(centre + reach * Point{std::cos(angle), std::sin(angle)});
  }
  return polygon;
}

/// Convex pieces of the thing and of all that is nearer to it than `distance`: what is near a union is near one of its
/// parts, and what is near a convex part is its sum with a disc (Minkowski). The pieces overlap.
std::vector<ConvexHull> grown(const KeptClear& thing, double distance) {
  const double reach = thing.radius + distance;
  if (thing.corners.size() == 1) return {{around_circle(thing.corners.front(), reach)}};
  std::vector<ConvexHull> pieces =
      convex_pieces(is_convex(thing.corners) ? Polygons{thing.corners} : weld({thing.corners}, weld_grid));
  if (reach == 0) return pieces;
  for (ConvexHull& piece : pieces) piece = grown(piece, reach, kept_clear_sagitta);
  return pieces;
}

/// How often a path's chords go round a point.
int turns_around(const std::vector<Polyline>& lines, Point p) {
  int turns = 0;
  for (const Polyline& line : lines) {
    for (std::size_t i = 0; i < line.points.size(); ++i) {
      const Point a = line.points[i], b = line.points[(i + 1) % line.points.size()];
      const double side = cross(b - a, p - a);
      if (a.y <= p.y && b.y > p.y && side > 0) ++turns;
      if (a.y > p.y && b.y <= p.y && side < 0) --turns;
    }
  }
  return turns;
}

Bounds box_of_corners(const Polygon& polygon) {
  Bounds box;
  for (const Point p : polygon) box.add(p);
  return box;
}

double depth_in(const ConvexHull& obstacle, const std::vector<Polyline>& lines, bool filled) {
  const ConvexRegion inside = region_of(obstacle.vertices);
  const Bounds box = box_of_corners(obstacle.vertices);
  double depth = -1e300;
  for (const Polyline& line : lines) {
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < line.points.size(); ++i) {
      const Point a = line.points[i], b = line.points[(i + 1) % line.points.size()];
      const Bounds reach{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
      const bool beside =
          reach.right < box.left || reach.left > box.right || reach.top < box.bottom || reach.bottom > box.top;
      if (!beside) depth = std::max(depth, depth_inside(inside, a, b));
    }
  }
  Point middle;
  for (const Point p : obstacle.vertices) middle = middle + 1 / static_cast<double>(obstacle.vertices.size()) * p;
  if (filled && turns_around(lines, middle) != 0) depth = std::max(depth, -distance_outside(inside, middle));
  return depth;
}

}  // namespace

ConvexHull grown(const ConvexHull& piece, double distance, double sagitta) {
  const Polygon disc = around_circle({}, distance, sagitta);
  std::vector<Point> sums;
  for (const Point p : piece.vertices) {
    for (const Point q : disc) sums.push_back(p + q);
  }
  return hull_of(std::move(sums));
}

Polygons outline_of(const KeptClear& thing) {
  if (thing.radius == 0) return {thing.corners};
  Polygons pieces;
  for (const ConvexHull& piece : grown(thing, 0)) pieces.push_back(piece.vertices);
  return pieces.size() == 1 ? pieces : weld(pieces, weld_grid);
}

std::vector<ConvexHull> obstacles_of(const KeptClear& thing) { return grown(thing, thing.margin); }

double distance_outside(const ClearArea& area, const Path& path, bool filled) {
  double distance = distance_outside(area.region, path);
  if (path.empty() || area.obstacles.empty()) return distance;
  const Bounds box = bounds_of(path);
  std::vector<Polyline> lines;
  for (const ConvexHull& obstacle : area.obstacles) {
    if (!overlap(box, box_of_corners(obstacle.vertices))) continue;
    if (lines.empty()) lines = flatten(path, curve_tolerance / 100);
    distance = std::max(distance, depth_in(obstacle, lines, filled));
  }
  return distance;
}

}  // namespace ordinatio::inline design
