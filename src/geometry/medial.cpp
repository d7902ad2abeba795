#include "geometry/medial.h"

#include <algorithm>

namespace ordinatio::inline geometry {
namespace {

/// The disc that touches a line at p, with unit normal n, and a segment. Its radius at a point q of the segment is
/// |q − p|² / 2 n·(q − p), convex where the denominator is positive; with q = a + t·d, A = |a − p|², B = (a − p)·d,
/// C = |d|², D = n·(a − p), E = n·d, its derivative vanishes where (D + E·t)² = D² + (A·E² − 2·B·D·E)/C.
struct Touch {
  double radius, t;
};
std::optional<Touch> touch(Point p, Point n, Point from, Point along, double span) {
  const Point to_start = from - p;  // |along| = 1, so C = 1 and t runs to span
  const double a = dot(to_start, to_start), b = dot(to_start, along), d = dot(n, to_start), e = dot(n, along);
  const double height = std::sqrt(std::max(0.0, d * d + e * (a * e - 2 * b * d)));
  double t = 0;
  if (const double sum = height + d;
      sum > 1e-12) {  // the root without cancellation; else the line meets p's from below
    t = (a * e - 2 * b * d) / sum;
  } else if (e != 0) {
    t = (height - d) / e;
  }
  t = std::clamp(t, 0.0, span);
  const double rise = d + e * t;
  if (!(rise > 0)) return std::nullopt;
  return Touch{(a + t * (2 * b + t)) / (2 * rise), t};
}

void append_contour(Boundary& boundary, const Polygon& polygon, double least, bool reversed) {
  Polygon points;
  for (const Point p : polygon) {
    if (points.empty() || length(p - points.back()) >= least) points.push_back(p);
  }
  while (points.size() > 1 && length(points.front() - points.back()) < least) points.pop_back();
  if (points.size() < 3) return;
  if (reversed) std::ranges::reverse(points);
  const std::size_t first = boundary.sides.size(), count = points.size();
  for (std::size_t i = 0; i < count; ++i) {
    const Point from = points[i], way = points[(i + 1) % count] - from;
    const double span = length(way);
    const Point along = 1 / span * way;
    const Side side{from,
                    along,
                    {-along.y, along.x},
                    span,
                    first + (i + count - 1) % count,
                    first + (i + 1) % count,
                    boundary.firsts.size()};
    boundary.sides.push_back(side);
    boundary.boxes.push_back({side.middle(), span / 2});
  }
  boundary.firsts.push_back(first);
  boundary.areas.push_back(area_of(points));
}

RoundBox row_of(const Boundary& boundary, std::size_t first, std::size_t last) {
  Bounds box;
  for (std::size_t i = first; i < last; ++i) {
    box.add(boundary.sides[i].from);
    box.add(boundary.sides[i].at(boundary.sides[i].span));
  }
  return {box.centre(), length({box.width(), box.height()}) / 2};
}

/// Halves stretches until each is short beside its ball; a stretch this short is left, however thin its place.
constexpr double finest = 1.0 / 8;  // of rules.step

void append_probes(std::vector<Probe>& probes, const Boundary& boundary, std::size_t side, double from, double to,
                   double least) {
  const std::size_t hint = probes.empty() ? 0 : probes.back().ball.foot_side;
  const Ball ball = ball_at(boundary, side, (from + to) / 2, hint);
  if (to - from > ball.radius && to - from > least) {
    append_probes(probes, boundary, side, from, (from + to) / 2, least);
    append_probes(probes, boundary, side, (from + to) / 2, to, least);
  } else {
    probes.push_back({ball, side, from, to});
  }
}

}  // namespace

Boundary boundary_of(const Polygons& polygons, double least, bool reversed) {
  Boundary boundary;
  Bounds all;
  for (const Polygon& polygon : polygons) {
    append_contour(boundary, polygon, least, reversed);
    for (const Point p : polygon) all.add(p);
  }
  for (std::size_t first = 0; first < boundary.sides.size(); first += row_length) {
    boundary.rows.push_back(row_of(boundary, first, std::min(first + row_length, boundary.sides.size())));
  }
  boundary.width = length({all.width(), all.height()});
  return boundary;
}

Ball ball_at(const Boundary& boundary, std::size_t side, double s, std::size_t hint) {
  const Point p = boundary.sides[side].at(s), n = boundary.sides[side].normal;
  Ball ball;
  ball.radius = boundary.width;
  ball.centre = p + ball.radius * n;
  const auto shrink = [&](std::size_t i) {
    if (i == side) return true;
    const Side& other = boundary.sides[i];
    const std::optional<Touch> found = touch(p, n, other.from, other.along, other.span);
    if (found && found->radius < ball.radius) ball = {p + found->radius * n, found->radius, true, i, found->t};
    return true;
  };
  shrink(hint);
  visit_near(boundary, ball.centre, ball.radius, shrink);
  return ball;
}

std::vector<Probe> probes_of(const Boundary& boundary, const GaugeRules& rules, const Bounds* zone) {
  std::vector<Probe> probes;
  probes.reserve(2 * boundary.sides.size());
  for (std::size_t i = 0; i < boundary.sides.size(); ++i) {
    const Side& side = boundary.sides[i];
    const double pieces = std::ceil(side.span / rules.step);
    for (double k = 0; k < pieces; ++k) {
      const double from = side.span * k / pieces, to = side.span * (k + 1) / pieces;
      if (!holds(zone, side.at((from + to) / 2))) continue;
      append_probes(probes, boundary, i, from, to, rules.step * finest);
    }
  }
  return probes;
}

}  // namespace ordinatio::inline geometry
