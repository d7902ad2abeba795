#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
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

bool is_sharp(const Outline& outline) {
  return std::ranges::all_of(outline.radii, [](double radius) { return radius <= 0; });
}

double radius_at(const Outline& outline, std::size_t i) { return outline.radii.empty() ? 0 : outline.radii[i]; }

/// By how much the outline turns left at vertex i.
double turn_at(const Outline& outline, std::size_t i) {
  const Polygon& v = outline.vertices;
  const Point in = v[i] - v[(i + v.size() - 1) % v.size()], out = v[(i + 1) % v.size()] - v[i];
  return std::atan2(cross(in, out), dot(in, out));
}

/// The arc at vertex i. Where its radius is 0 it is the vertex itself.
CornerArc corner_arc(const Outline& outline, std::size_t i) {
  const std::size_t n = outline.vertices.size();
  const Point before = outline.vertices[(i + n - 1) % n], here = outline.vertices[i];
  const Point in = 1 / length(here - before) * (here - before);
  const double angle = turn_at(outline, i), radius = radius_at(outline, i);
  const Point from = here - radius * std::tan(angle / 2) * in;
  return {from + radius * Point{-in.y, in.x}, from, angle};
}

/// Points along an arc, both ends included.
Polygon arc_points(const CornerArc& arc, int pieces) {
  Polygon points;
  for (int i = 0; i <= pieces; ++i)
    points.push_back(arc.centre + turned(arc.from - arc.centre, arc.angle * i / pieces));
  return points;
}

/// The polygon with its edges moved inwards.
Polygon moved_inwards(const Polygon& polygon, double distance) {
  ConvexRegion region = region_of(polygon);
  for (HalfPlane& edge : region.edges) edge.offset -= distance;
  return polygon_of(region);
}

/// The vertices, each where its edges meet when both have moved inwards; nothing where an edge is gone.
std::optional<Polygon> moved_vertices(const Polygon& polygon, double distance) {
  const std::size_t n = polygon.size();
  Polygon moved;
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = polygon[(i + n - 1) % n], here = polygon[i], after = polygon[(i + 1) % n];
    const Point in = 1 / length(here - before) * (here - before), out = 1 / length(after - here) * (after - here);
    moved.push_back(here + distance / cross(in, out) * (out - in));
  }
  for (std::size_t i = 0; i < n; ++i) {
    if (dot(moved[(i + 1) % n] - moved[i], polygon[(i + 1) % n] - polygon[i]) <= 0) return std::nullopt;
  }
  return moved;
}

/// The corners from the one at `at`, along a side of the direction `in` and then one of the direction `out`.
void add_corner(Outline& outline, Point at, Point in, Point out, const CornerShape& shape) {
  if (shape.kind != Corner::cut) {
    outline.vertices.push_back(at);
    outline.radii.push_back(shape.kind == Corner::rounded ? shape.across : 0);
    return;
  }
  const auto taken = [&shape](Point side) { return (side.x != 0 ? shape.across : shape.up) * side; };
  outline.vertices.push_back(at - taken(in));
  outline.vertices.push_back(at + taken(out));
  outline.radii.insert(outline.radii.end(), 2, 0);
}

}  // namespace

Outline rounded_outline(Polygon vertices, double radius) {
  std::vector<double> radii(radius > 0 ? vertices.size() : 0, radius);
  return {std::move(vertices), std::move(radii)};
}

Outline rectangle_outline(double width, double height, const std::array<CornerShape, 4>& corners) {
  const std::array at{Point{0, 0}, Point{width, 0}, Point{width, height}, Point{0, height}};
  const std::array sides{Point{1, 0}, Point{0, 1}, Point{-1, 0}, Point{0, -1}};  // from each corner on
  Outline outline;
  for (std::size_t i = 0; i < 4; ++i) add_corner(outline, at[i], sides[(i + 3) % 4], sides[i], corners[i]);
  if (corners[0].kind == Corner::cut) {  // begin on the lower side
    std::rotate(outline.vertices.begin(), outline.vertices.begin() + 1, outline.vertices.end());
    std::rotate(outline.radii.begin(), outline.radii.begin() + 1, outline.radii.end());
  }
  if (is_sharp(outline)) outline.radii.clear();
  return outline;
}

Outline rectangle_outline(double width, double height, Corner corner, double corner_size) {
  const CornerShape shape{corner_size > 0 ? corner : Corner::square, corner_size, corner_size};
  return rectangle_outline(width, height, {shape, shape, shape, shape});
}

bool corners_fit(const Outline& outline) {
  const std::size_t n = outline.vertices.size();
  const auto taken = [&](std::size_t i) { return radius_at(outline, i % n) * std::tan(turn_at(outline, i % n) / 2); };
  for (std::size_t i = 0; i < n; ++i) {
    constexpr double slack = 1e-9;  // mm; a half circle takes exactly its edge, give or take rounding
    const double edge = length(outline.vertices[(i + 1) % n] - outline.vertices[i]);
    if (taken(i) + taken(i + 1) > edge + slack) return false;
  }
  return true;
}

std::optional<Outline> inset(const Outline& outline, double distance) {
  const auto one_radius = std::ranges::adjacent_find(outline.radii, std::not_equal_to{}) == outline.radii.end();
  if (one_radius) {
    Polygon vertices = moved_inwards(outline.vertices, distance);
    if (vertices.empty()) return std::nullopt;
    return rounded_outline(std::move(vertices), radius_at(outline, 0) - distance);
  }
  if (auto vertices = moved_vertices(outline.vertices, distance)) {
    Outline moved{*std::move(vertices), outline.radii};
    for (double& radius : moved.radii) radius = std::max(radius - distance, 0.0);
    if (corners_fit(moved)) return moved;
  }
  Polygon vertices = moved_inwards(polygon_of(region_of(outline)), distance);
  if (vertices.empty()) return std::nullopt;
  return Outline{std::move(vertices), {}};
}

Path path_of(const Outline& outline) {
  if (is_sharp(outline)) return path_of(Polygons{outline.vertices});
  Path path;
  for (std::size_t i = 0; i < outline.vertices.size(); ++i) {
    const CornerArc arc = corner_arc(outline, i);
    i == 0 ? path.move_to(arc.from) : path.line_to(arc.from);
    if (radius_at(outline, i) <= 0) continue;
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
  if (is_sharp(outline)) return region_of(outline.vertices);
  Polygon points;
  for (std::size_t i = 0; i < outline.vertices.size(); ++i) {
    const double radius = radius_at(outline, i);
    if (radius <= 0) {
      points.push_back(outline.vertices[i]);
      continue;
    }
    const CornerArc arc = corner_arc(outline, i);
    // A chord over the angle φ of a circle of radius r lies r·(1 − cos φ/2) inside it at most.
    const double widest = 2 * std::acos(std::max(0.0, 1 - arc_sagitta / radius));
    const Polygon along = arc_points(arc, std::max(1, static_cast<int>(std::ceil(arc.angle / widest))));
    points.insert(points.end(), along.begin(), along.end());
  }
  return region_of(hull_of(std::move(points)).vertices);
}

}  // namespace ordinatio::inline geometry
