#include <algorithm>

#include "geometry/segments.h"

namespace ordinatio {

// Andrew's monotone chain (1979): lower and upper chain of the points sorted by x, then y.
ConvexHull hull_of(std::vector<Point> points) {
  std::sort(points.begin(), points.end(),
            [](Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return {std::move(points)};
  Polygon chain;
  chain.reserve(points.size() + 1);
  const auto extend = [&chain](Point p, std::size_t least) {
    while (chain.size() >= least + 2 &&
           cross(chain.back() - chain[chain.size() - 2], p - chain.back()) <= 0) {
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

}  // namespace ordinatio
