#include <algorithm>

#include "geometry/segments.h"

namespace ordinatio::inline geometry {
namespace {

constexpr std::size_t worth_thinning = 64;  // points; below that the sort is quicker

/// Drops the points that lie strictly inside the octagon of the points furthest out in eight directions: they are no
/// corners (Akl and Toussaint 1978). Of a line of lettering that leaves a few dozen points to sort.
void drop_inner_points(std::vector<Point>& points) {
  constexpr Point directions[] = {{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}};
  Polygon octagon;
  for (const Point direction : directions) {
    const auto less = [direction](Point a, Point b) { return dot(direction, a) < dot(direction, b); };
    const Point furthest = *std::max_element(points.begin(), points.end(), less);
    if (octagon.empty() || !(furthest == octagon.back())) octagon.push_back(furthest);
  }
  if (octagon.size() > 1 && octagon.back() == octagon.front()) octagon.pop_back();
  if (octagon.size() < 3) return;
  std::erase_if(points, [&octagon](Point p) {
    for (std::size_t i = 0; i < octagon.size(); ++i) {
      const Point a = octagon[i], b = octagon[i + 1 < octagon.size() ? i + 1 : 0];
      if (cross(b - a, p - a) <= 0) return false;
    }
    return true;
  });
}

}  // namespace

// Andrew's monotone chain (1979): lower and upper chain of the points sorted by x, then y.
ConvexHull hull_of(std::vector<Point> points) {
  if (points.size() > worth_thinning) drop_inner_points(points);
  std::sort(points.begin(), points.end(), [](Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return {std::move(points)};
  Polygon chain;
  chain.reserve(points.size() + 1);
  const auto extend = [&chain](Point p, std::size_t least) {
    while (chain.size() >= least + 2 && cross(chain.back() - chain[chain.size() - 2], p - chain.back()) <= 0) {
      chain.pop_back();
    }
    chain.push_back(p);
  };
  for (const Point p : points) extend(p, 0);
  const std::size_t lower = chain.size() - 1;
  for (std::size_t i = points.size() - 1; i-- > 0;) extend(points[i], lower);
  chain.pop_back();
  return {std::move(chain)};
}

ConvexHull hull_of(const Path& path, double tolerance) {
  std::vector<Point> points;
  for (const Polyline& line : flatten(path, tolerance)) {
    points.insert(points.end(), line.points.begin(), line.points.end());
  }
  // The chords fall short of the curves; along the axes the true extrema are added, so that rectangles fit
  // exactly.
  const auto on_segment = [&points](const Segment& segment) {
    const Extrema extrema = extrema_of(segment);
    points.insert(points.end(), extrema.points.begin(), extrema.points.begin() + extrema.count);
  };
  walk(
      path, [](Point) {}, on_segment, [](bool) {});
  return hull_of(std::move(points));
}

}  // namespace ordinatio::inline geometry
