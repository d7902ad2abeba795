#include "check/ink.h"

#include <algorithm>
#include <cmath>

#include "check/cubic.h"

namespace ordinatio::inline check {
namespace {

constexpr int fine_cuts = 64;  // of a curve whose control points lie outside the region

/// Adds up what is met along a path; areas about each contour's start, so that large coordinates do not cancel.
class Meter {
 public:
  explicit Meter(Measure wanted) : lengths_(wanted == Measure::area_and_length) {}

  void move(Point p) {
    origin_ = p;
    swept_ = reach_ = 0;
    ink_.bounds.add(p);
  }
  void line(Point from, Point to) {
    edge(from, to);
    ink_.bounds.add(to);
    reach(to);
  }
  void cubic(const Cubic& c) {
    swept_ += swept_area({c.a - origin_, c.b - origin_, c.c - origin_, c.d - origin_});
    const Point across = c.d - c.a;
    ink_.edge_squares += dot(across, across);
    ++ink_.edges;
    if (lengths_) ink_.length += arc_length(c);
    add_bounds(ink_.bounds, c);
    reach(c.b), reach(c.c), reach(c.d);
  }
  void end(Point start, Point last, bool closed) {
    if (closed) {
      edge(last, start);
      ink_.area += swept_;
    }
    ink_.contours.push_back({start, closed, reach_});
  }
  Ink take() { return std::move(ink_); }

 private:
  void edge(Point from, Point to) {
    const Point across = to - from;
    const double square = dot(across, across);
    swept_ += cross(from - origin_, across) / 2;
    ink_.edge_squares += square;
    ++ink_.edges;
    if (lengths_) ink_.length += std::sqrt(square);
  }
  void reach(Point p) { reach_ = std::max({reach_, std::abs(p.x - origin_.x), std::abs(p.y - origin_.y)}); }

  bool lengths_;
  Ink ink_;
  Point origin_;
  double swept_ = 0, reach_ = 0;
};

double outside(const ConvexRegion& region, Point p) {
  double most = -1e300;
  for (const HalfPlane& edge : region.edges) most = std::max(most, dot(edge.normal, p) - edge.offset);
  return most;
}

double outside(const ConvexRegion& region, const Cubic& cubic, double slack) {
  const double hull = std::max(outside(region, cubic.b), outside(region, cubic.c));
  const double end = outside(region, cubic.d);
  if (std::max(hull, end) <= slack) return std::max(hull, end);
  double most = end;
  for (int i = 1; i < fine_cuts; ++i) most = std::max(most, outside(region, cubic.at(double(i) / fine_cuts)));
  return most;
}

}  // namespace

Ink measure(const Path& path, Measure wanted) {
  Meter meter(wanted);
  follow(
      path, [&](Point p) { meter.move(p); }, [&](Point from, Point to) { meter.line(from, to); },
      [&](const Cubic& cubic) { meter.cubic(cubic); },
      [&](Point start, Point last, bool closed) { meter.end(start, last, closed); });
  return meter.take();
}

Path chords_of(const Path& path, double tolerance) {
  Path chords;
  const auto on_cubic = [&](const Cubic& cubic) {
    const int count = chord_count(cubic, tolerance);
    for (int i = 1; i < count; ++i) chords.line_to(cubic.at(double(i) / count));
    chords.line_to(cubic.d);
  };
  const auto on_end = [&](Point, Point, bool closed) {
    if (closed) chords.close();
  };
  follow(
      path, [&](Point p) { chords.move_to(p); }, [&](Point, Point to) { chords.line_to(to); }, on_cubic, on_end);
  return chords;
}

ConvexRegion moved(const ConvexRegion& region, const Transform& by) {
  ConvexRegion result;
  result.edges.reserve(region.edges.size());
  const double determinant = by.determinant();
  for (const HalfPlane& edge : region.edges) {
    // n·p ≤ d with p = A⁻¹(q − t): the normal is A⁻ᵀn, made a unit again.
    const Point n = edge.normal;
    const Point normal{(by.yy * n.x - by.yx * n.y) / determinant, (by.xx * n.y - by.xy * n.x) / determinant};
    const double size = length(normal);
    const double offset = edge.offset + dot(normal, Point{by.dx, by.dy});
    result.edges.push_back({(1 / size) * normal, offset / size});
  }
  return result;
}

double excess(const Path& path, const Bounds& bounds, const ConvexRegion& region, double slack) {
  const Point corners[] = {{bounds.left, bounds.bottom},
                           {bounds.right, bounds.bottom},
                           {bounds.right, bounds.top},
                           {bounds.left, bounds.top}};
  double most = -1e300;
  for (const Point corner : corners) most = std::max(most, outside(region, corner));
  if (most <= 0) return most;  // convex: what its box holds, it holds
  most = -1e300;
  const auto add = [&](double distance) { most = std::max(most, distance); };
  follow(
      path, [&](Point p) { add(outside(region, p)); }, [&](Point, Point to) { add(outside(region, to)); },
      [&](const Cubic& cubic) { add(outside(region, cubic, slack)); }, [](Point, Point, bool) {});
  return most;
}

}  // namespace ordinatio::inline check
