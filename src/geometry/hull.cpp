#include <algorithm>

#include "geometry/segments.h"

namespace ordinatio::inline geometry {
namespace {

constexpr std::size_t worth_thinning = 64;  // points; below that the sort is quicker

/// The points furthest out in eight directions, counter-clockwise; of several the first. In one pass: lettering has
/// thousands of points.
Polygon octagon_of(const std::vector<Point>& points) {
  const Point first = points.front();
  Point right = first, above_right = first, above = first, above_left = first;
  Point left = first, below_left = first, below = first, below_right = first;
  double most_x = first.x, least_x = first.x, most_y = first.y, least_y = first.y;
  double most_sum = first.x + first.y, least_sum = most_sum;
  double most_rise = first.y - first.x, least_rise = most_rise;
  for (const Point p : points) {
    const double sum = p.x + p.y, rise = p.y - p.x;
    if (p.x > most_x) most_x = p.x, right = p;
    if (p.x < least_x) least_x = p.x, left = p;
    if (p.y > most_y) most_y = p.y, above = p;
    if (p.y < least_y) least_y = p.y, below = p;
    if (sum > most_sum) most_sum = sum, above_right = p;
    if (sum < least_sum) least_sum = sum, below_left = p;
    if (rise > most_rise) most_rise = rise, above_left = p;
    if (rise < least_rise) least_rise = rise, below_right = p;
  }
  return {right, above_right, above, above_left, left, below_left, below, below_right};
}

/// Drops the points that lie strictly inside the octagon of the points furthest out in eight directions: they are no
/// corners (Akl and Toussaint 1978). Of a line of lettering that leaves a few dozen points to sort.
void drop_inner_points(std::vector<Point>& points) {
  Polygon octagon = octagon_of(points);
  octagon.erase(std::unique(octagon.begin(), octagon.end()), octagon.end());
  if (octagon.size() > 1 && octagon.back() == octagon.front()) octagon.pop_back();
  if (octagon.size() < 3) return;
  std::vector<Point> along;
  for (std::size_t i = 0; i < octagon.size(); ++i) along.push_back(octagon[(i + 1) % octagon.size()] - octagon[i]);
  std::erase_if(points, [&](Point p) {
    for (std::size_t i = 0; i < octagon.size(); ++i) {
      if (cross(along[i], p - octagon[i]) <= 0) return false;
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
