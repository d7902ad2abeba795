#include <algorithm>

#include "check/cubic.h"
#include "check/ink.h"

namespace ordinatio::inline check {
namespace {

constexpr int chords_of_curve = 64;  // near an obstacle: of a letter's curve these miss it by less than 0.1 µm

/// A path near one obstacle.
class IntrusionMeter {
 public:
  IntrusionMeter(const Polygon& obstacle, const Bounds& box)
      : obstacle_(obstacle), box_(box), inside_(obstacle.front()) {
    for (const Point p : obstacle)
      inside_ = inside_ + 1 / static_cast<double>(obstacle.size()) * (p - obstacle.front());
  }

  void line(Point a, Point b) {
    wind(a, b);
    if (std::max(a.x, b.x) < box_.left || std::min(a.x, b.x) > box_.right) return;
    if (std::max(a.y, b.y) < box_.bottom || std::min(a.y, b.y) > box_.top) return;
    // The part of the line inside all edges; it is deepest near its middle (half as deep at the least: the depth is
    // concave along it, and nothing at its ends, unless the line ends inside).
    double from = 0, to = 1;
    for (std::size_t i = 0; i < obstacle_.size(); ++i) {
      const double at_a = depth_at(i, a), at_b = depth_at(i, b);
      if (at_a <= 0 && at_b <= 0) return;
      if (at_a < 0) from = std::max(from, at_a / (at_a - at_b));
      if (at_b < 0) to = std::min(to, at_a / (at_a - at_b));
    }
    if (from > to) return;
    for (const double t : {from, (from + to) / 2, to}) add(a + t * (b - a));
  }
  void cubic(const Cubic& c) {
    Bounds reach;
    for (const Point p : {c.a, c.b, c.c, c.d}) reach.add(p);
    const bool beside =
        reach.right < box_.left || reach.left > box_.right || reach.top < box_.bottom || reach.bottom > box_.top;
    const int count = beside ? 1 : chords_of_curve;
    for (int i = 0; i < count; ++i) line(c.at(double(i) / count), c.at(double(i + 1) / count));
  }
  void end(Point start, Point last, bool closed) {
    if (closed) line(last, start);
  }
  [[nodiscard]] double deepest(bool filled) {
    if (filled && turns_ != 0) add(inside_);
    return deepest_;
  }

 private:
  [[nodiscard]] double depth_at(std::size_t edge, Point p) const {
    const Point a = obstacle_[edge], along = obstacle_[(edge + 1) % obstacle_.size()] - a;
    return cross(along, p - a) / length(along);
  }
  void add(Point p) {
    double depth = 1e300;
    for (std::size_t i = 0; i < obstacle_.size(); ++i) depth = std::min(depth, depth_at(i, p));
    deepest_ = std::max(deepest_, depth);
  }
  /// Turns of the path around a point inside the obstacle: a covered obstacle may meet no line.
  void wind(Point a, Point b) {
    if ((a.y <= inside_.y) == (b.y <= inside_.y)) return;
    const bool left = cross(b - a, inside_ - a) > 0;
    if (a.y <= inside_.y && left) ++turns_;
    if (a.y > inside_.y && !left) --turns_;
  }

  const Polygon& obstacle_;
  Bounds box_;
  Point inside_;
  int turns_ = 0;
  double deepest_ = -1e300;
};

}  // namespace

ClearArea moved(const ClearArea& area, const Transform& by) {
  ClearArea result{moved(area.region, by), area.obstacles};
  for (ConvexHull& obstacle : result.obstacles) {
    for (Point& p : obstacle.vertices) p = by(p);
    if (by.determinant() < 0) std::ranges::reverse(obstacle.vertices);
  }
  return result;
}

double excess(const Path& path, const Bounds& bounds, const ClearArea& area, double slack, bool filled) {
  double most = excess(path, bounds, area.region, slack);
  for (const ConvexHull& obstacle : area.obstacles) {
    Bounds box;
    for (const Point p : obstacle.vertices) box.add(p);
    if (!overlap(bounds, box)) continue;
    IntrusionMeter meter(obstacle.vertices, box);
    follow(
        path, [](Point) {}, [&](Point from, Point to) { meter.line(from, to); },
        [&](const Cubic& cubic) { meter.cubic(cubic); },
        [&](Point start, Point last, bool closed) { meter.end(start, last, closed); });
    most = std::max(most, meter.deepest(filled));
  }
  return most;
}

}  // namespace ordinatio::inline check
