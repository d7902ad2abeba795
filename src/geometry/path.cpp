#include <algorithm>
#include <cmath>

#include "geometry/segments.h"

namespace ordinatio::inline geometry {

double length(Point p) { return std::hypot(p.x, p.y); }

void Bounds::add(const Bounds& other) {
  if (other.empty()) return;
  add(Point{other.left, other.bottom});
  add(Point{other.right, other.top});
}

Bounds Bounds::shifted(Point by) const {
  if (empty()) return *this;
  return {left + by.x, bottom + by.y, right + by.x, top + by.y};
}

Bounds Bounds::stretched(double across, double up) const {
  return {across * left, up * bottom, across * right, up * top};
}

Polygon polygon_of_box(const Bounds& box) {
  return {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

bool overlap(const Bounds& a, const Bounds& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

Transform shift_by(Point by) { return {1, 0, 0, 1, by.x, by.y}; }
Transform scale_by(double factor) { return {factor, 0, 0, factor, 0, 0}; }
Transform quarter_turn() { return {0, 1, -1, 0, 0, 0}; }

Transform then(const Transform& first, const Transform& second) {
  const Point origin = second(Point{first.dx, first.dy});
  return {second.xx * first.xx + second.xy * first.yx,
          second.yx * first.xx + second.yy * first.yx,
          second.xx * first.xy + second.xy * first.yy,
          second.yx * first.xy + second.yy * first.yy,
          origin.x,
          origin.y};
}

void Path::quad_to(Point control, Point end) {
  verbs_.push_back(Verb::quad);
  points_.push_back(control);  // cheaper than a list of both
  points_.push_back(end);
}

void Path::cubic_to(Point control1, Point control2, Point end) {
  verbs_.push_back(Verb::cubic);
  points_.push_back(control1);
  points_.push_back(control2);
  points_.push_back(end);
}

void Path::add_rectangle(const Bounds& box) {
  move_to({box.left, box.bottom});
  line_to({box.right, box.bottom});
  line_to({box.right, box.top});
  line_to({box.left, box.top});
  close();
}

void Path::append(const Path& other, const Transform& by) {
  verbs_.insert(verbs_.end(), other.verbs_.begin(), other.verbs_.end());
  const std::size_t own = points_.size();
  points_.resize(own + other.points_.size());
  std::transform(other.points_.begin(), other.points_.end(), points_.begin() + static_cast<std::ptrdiff_t>(own), by);
}

Path transformed(const Path& path, const Transform& by) {
  Path result;
  result.append(path, by);
  return result;
}

Path reversed(const Path& path) {
  Path result;
  Point start;
  std::vector<Segment> contour;
  const auto begin = [&](Point p) {
    start = p;
    contour.clear();
  };
  const auto end = [&](bool closed) {
    result.move_to(contour.empty() ? start : contour.back().control[static_cast<std::size_t>(contour.back().degree)]);
    // `close` draws a first segment that is a line: it becomes the last one.
    const std::size_t last = closed && !contour.empty() && contour.front().degree == 1 ? 1 : 0;
    for (std::size_t i = contour.size(); i-- > last;) {
      const auto& c = contour[i].control;
      switch (contour[i].degree) {
        case 1:
          result.line_to(c[0]);
          break;
        case 2:
          result.quad_to(c[1], c[0]);
          break;
        default:
          result.cubic_to(c[2], c[1], c[0]);
      }
    }
    if (closed) result.close();
  };
  walk(
      path, begin, [&](const Segment& segment) { contour.push_back(segment); }, end);
  return result;
}

Point point_at(const Segment& segment, double t) {
  const auto& c = segment.control;
  const double u = 1 - t;
  switch (segment.degree) {
    case 1:
      return u * c[0] + t * c[1];
    case 2:
      return u * u * c[0] + 2 * u * t * c[1] + t * t * c[2];
    default:
      return u * u * u * c[0] + 3 * u * u * t * c[1] + 3 * u * t * t * c[2] + t * t * t * c[3];
  }
}

Point slope_at(const Segment& segment, double t) {
  const auto& c = segment.control;
  const double u = 1 - t;
  switch (segment.degree) {
    case 1:
      return c[1] - c[0];
    case 2:
      return 2 * u * (c[1] - c[0]) + 2 * t * (c[2] - c[1]);
    default:
      return 3 * u * u * (c[1] - c[0]) + 6 * u * t * (c[2] - c[1]) + 3 * t * t * (c[3] - c[2]);
  }
}

Extrema extrema_of(const Segment& segment) {
  Extrema found;
  const auto add = [&](double t) {
    if (t > 0 && t < 1) found.points[found.count++] = point_at(segment, t);
  };
  for (double Point::*const axis : {&Point::x, &Point::y}) {
    const auto at = [&](std::size_t i) { return segment.control[i].*axis; };
    if (segment.degree == 2) {
      const double denominator = at(0) - 2 * at(1) + at(2);
      if (denominator != 0) add((at(0) - at(1)) / denominator);
    } else if (segment.degree == 3) {
      // Derivative / 3 = a·t² + 2·b·t + c, solved in the form that does not cancel.
      const double c = at(1) - at(0), b = at(2) - 2 * at(1) + at(0), a = at(3) - 3 * at(2) + 3 * at(1) - at(0);
      const double discriminant = b * b - a * c;
      if (discriminant < 0) continue;
      const double q = -(b + std::copysign(std::sqrt(discriminant), b));
      if (a != 0) add(q / a);
      if (q != 0) add(c / q);
    }
  }
  return found;
}

Bounds bounds_of(const Path& path) {
  Bounds bounds;
  const auto on_segment = [&](const Segment& segment) {
    bounds.add(segment.control[static_cast<std::size_t>(segment.degree)]);
    const Extrema extrema = extrema_of(segment);
    for (std::size_t i = 0; i < extrema.count; ++i) bounds.add(extrema.points[i]);
  };
  walk(
      path, [&](Point p) { bounds.add(p); }, on_segment, [](bool) {});
  return bounds;
}

double area_of(const Path& path) {
  double total = 0, contour = 0;
  Point origin;
  // ½∮(x dy − y dx) of each Bézier in closed form, about the contour's start so that large coordinates do not
  // cancel.
  const auto on_segment = [&](const Segment& segment) {
    const auto& c = segment.control;
    const Point p0 = c[0] - origin, p1 = c[1] - origin;
    if (segment.degree == 1) {
      contour += cross(p0, p1) / 2;
      return;
    }
    const Point p2 = c[2] - origin;
    if (segment.degree == 2) {
      contour += (2 * cross(p0, p1) + 2 * cross(p1, p2) + cross(p0, p2)) / 6;
      return;
    }
    const Point p3 = c[3] - origin;
    contour += (6 * cross(p0, p1) + 3 * cross(p0, p2) + cross(p0, p3) + 3 * cross(p1, p2) + 3 * cross(p1, p3) +
                6 * cross(p2, p3)) /
               20;
  };
  const auto end = [&](bool closed) {
    if (closed) total += contour;
    contour = 0;
  };
  walk(
      path, [&](Point p) { origin = p; }, on_segment, end);
  return total;
}

Point centroid_of(const Path& path) {
  // ∫x dA = ½∮x² dy and ∫y dA = −½∮y² dx (Green's theorem), about the middle of the box so that large coordinates do not
  // cancel. Of a cubic these are integrals of polynomials of degree 8: Gauss's rule with five places is exact up to 9
  // (Abramowitz and Stegun 1964, table 25.4; from memory).
  struct Place {
    double t, weight;
  };
  constexpr std::array<Place, 5> places{{{0.5, 0.568888888888888889},
                                         {0.230765344947158454, 0.478628670499366468},
                                         {0.769234655052841546, 0.478628670499366468},
                                         {0.0469100770306680036, 0.236926885056189088},
                                         {0.953089922969331996, 0.236926885056189088}}};
  const double area = area_of(path);
  const Point middle = bounds_of(path).centre();
  Point moment{0, 0}, contour{0, 0};
  const auto on_segment = [&](const Segment& segment) {
    for (const Place& place : places) {
      const Point p = point_at(segment, place.t) - middle, along = 0.25 * place.weight * slope_at(segment, place.t);
      contour = contour + Point{p.x * p.x * along.y, -p.y * p.y * along.x};
    }
  };
  const auto end = [&](bool closed) {
    if (closed) moment = moment + contour;
    contour = {0, 0};
  };
  walk(
      path, [](Point) {}, on_segment, end);
  return std::abs(area) > 0 ? middle + 1 / area * moment : middle;
}

double area_of(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i + 1 < polygon.size(); ++i) {
    twice += cross(polygon[i] - polygon[0], polygon[i + 1] - polygon[0]);
  }
  return twice / 2;
}

double area_of(const Polygons& polygons) {
  double total = 0;
  for (const Polygon& polygon : polygons) total += area_of(polygon);
  return total;
}

}  // namespace ordinatio::inline geometry
