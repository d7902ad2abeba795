#include <algorithm>
#include <cmath>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
namespace {

constexpr double side_slack = 1e-6;  // mm; vertices stand where they were reckoned to, give or take rounding

/// How far from `corner`, towards `next`, the nearest vertex lies on that side; nothing where none does.
std::optional<double> nearest_along(const Outline& outline, Point corner, Point next) {
  const Point direction = 1 / length(next - corner) * (next - corner);
  std::optional<double> nearest;
  for (const Point p : outline.vertices) {
    const double along = dot(p - corner, direction);
    if (std::abs(cross(p - corner, direction)) > side_slack || along < -side_slack) continue;
    if (!nearest || along < *nearest) nearest = along;
  }
  return nearest;
}

double radius_near(const Outline& outline, Point corner) {
  for (std::size_t i = 0; i < outline.radii.size(); ++i) {
    if (length(outline.vertices[i] - corner) <= 2 * side_slack) return outline.radii[i];
  }
  return 0;
}

}  // namespace

std::optional<std::array<CornerShape, 4>> corner_shapes_of(const Outline& outline, double width, double height) {
  const std::array<Point, 4> at{{{0, 0}, {width, 0}, {width, height}, {0, height}}};
  std::array<CornerShape, 4> shapes{};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto after = nearest_along(outline, at[i], at[(i + 1) % 4]);
    const auto before = nearest_along(outline, at[i], at[(i + 3) % 4]);
    if (!after || !before) return std::nullopt;
    const bool lies = i % 2 == 0;  // the side behind this corner runs across
    if (*after > (lies ? width : height) - side_slack || *before > (lies ? height : width) - side_slack)
      return std::nullopt;
    if (std::max(*after, *before) > side_slack) {
      shapes[i] = {Corner::cut, lies ? *after : *before, lies ? *before : *after};
    } else if (const double radius = radius_near(outline, at[i]); radius > 0) {
      shapes[i] = {Corner::rounded, radius, radius};
    }
  }
  // Both are convex and touch the box at the same points: they are the same if they have the same area.
  const double difference = area_of(path_of(rectangle_outline(width, height, shapes))) - area_of(path_of(outline));
  return std::abs(difference) <= side_slack * (width + height) ? std::optional(shapes) : std::nullopt;
}

}  // namespace ordinatio::inline geometry
