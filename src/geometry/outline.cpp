#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/geometry.h"

namespace ordinatio {
namespace {

/// A rounded corner: the arc about `centre` from `from`, turning left by `angle`.
struct CornerArc {
  Point centre, from;
  double angle = 0;
};

Point turned(Point p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

/// The arc at vertex i. Where radius is 0 it is the vertex itself.
CornerArc corner_arc(const Outline& outline, std::size_t i) {
  const std::size_t n = outline.vertices.size();
  const Point before = outline.vertices[(i + n - 1) % n], here = outline.vertices[i];
  const Point after = outline.vertices[(i + 1) % n];
  const Point in = 1 / length(here - before) * (here - before), out = 1 / length(after - here) * (after - here);
  const double angle = std::atan2(cross(in, out), dot(in, out));
  const Point from = here - outline.radius * std::tan(angle / 2) * in;
  return {from + outline.radius * Point{-in.y, in.x}, from, angle};
}

/// Points along an arc, both ends included.
Polygon arc_points(const CornerArc& arc, int pieces) {
  Polygon points;
  for (int i = 0; i <= pieces; ++i)
    points.push_back(arc.centre + turned(arc.from - arc.centre, arc.angle * i / pieces));
  return points;
}

}  // namespace

Outline rectangle_outline(double width, double height, Corner corner, double corner_size) {
  const double w = width, h = height, c = corner_size;
  if (corner == Corner::cut && c > 0) {
    return {{{c, 0}, {w - c, 0}, {w, c}, {w, h - c}, {w - c, h}, {c, h}, {0, h - c}, {0, c}}, 0};
  }
  return {{{0, 0}, {w, 0}, {w, h}, {0, h}}, corner == Corner::rounded ? c : 0};
}

std::optional<Outline> inset(const Outline& outline, double distance) {
  ConvexRegion region = region_of(outline.vertices);
  for (HalfPlane& edge : region.edges) edge.offset -= distance;
  Polygon vertices = polygon_of(region);
  if (vertices.empty()) return std::nullopt;
  return Outline{std::move(vertices), std::max(outline.radius - distance, 0.0)};
}

Path path_of(const Outline& outline) {
  if (outline.radius <= 0) return path_of(Polygons{outline.vertices});
  Path path;
  for (std::size_t i = 0; i < outline.vertices.size(); ++i) {
    const CornerArc arc = corner_arc(outline, i);
    i == 0 ? path.move_to(arc.from) : path.line_to(arc.from);
    // An arc of at most 45° as one cubic with handles 4/3·tan(θ/4) errs by less than 5e-6 of its radius.
    const int pieces = std::max(1, static_cast<int>(std::ceil(arc.angle / (std::numbers::pi / 4) - 1e-9)));
    const double handle = 4.0 / 3 * std::tan(arc.angle / pieces / 4);
    Point spoke = arc.from - arc.centre;
    for (int piece = 1; piece <= pieces; ++piece) {
      const Point next = turned(arc.from - arc.centre, arc.angle * piece / pieces);
      path.cubic_to(arc.centre + spoke + handle * Point{-spoke.y, spoke.x},
                    arc.centre + next - handle * Point{-next.y, next.x}, arc.centre + next);
      spoke = next;
    }
  }
  path.close();
  return path;
}

ConvexRegion region_of(const Outline& outline) {
  if (outline.radius <= 0) return region_of(outline.vertices);
  // A chord over the angle φ of a circle of radius r lies r·(1 − cos φ/2) inside it at most.
  const double widest = 2 * std::acos(std::max(0.0, 1 - arc_sagitta / outline.radius));
  Polygon points;
  for (std::size_t i = 0; i < outline.vertices.size(); ++i) {
    const CornerArc arc = corner_arc(outline, i);
    const Polygon along = arc_points(arc, std::max(1, static_cast<int>(std::ceil(arc.angle / widest))));
    points.insert(points.end(), along.begin(), along.end());
  }
  return region_of(hull_of(std::move(points)).vertices);
}

}  // namespace ordinatio
