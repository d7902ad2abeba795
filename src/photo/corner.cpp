#include <algorithm>
#include <cmath>

#include "photo/marks.h"

namespace ordinatio::inline photo {
namespace {

constexpr int most_steps = 30;       // it rests after four or five; where noise is strong, after a dozen
constexpr double at_rest = 1e-3;     // pixels
constexpr double least_ratio = 0.2;  // of the smaller to the larger eigenvalue: one edge alone has none across it

/// The gradient of the light by Scharr's weights, whose direction is nearly the same for all edges.
Point gradient_at(const Brightness& b, int x, int y) {
  const auto across = [&](int row) { return static_cast<double>(b.at(x + 1, row)) - b.at(x - 1, row); };
  const auto down = [&](int column) { return static_cast<double>(b.at(column, y + 1)) - b.at(column, y - 1); };
  return {(3 * across(y - 1) + 10 * across(y) + 3 * across(y + 1)) / 32,
          (3 * down(x - 1) + 10 * down(x) + 3 * down(x + 1)) / 32};
}

/// One window's answer, relative to its middle.
std::optional<Point> nearest_to_edges(const Brightness& b, Point middle, double radius) {
  double xx = 0, xy = 0, yy = 0;
  Point right;
  const int left = static_cast<int>(std::floor(middle.x - radius)),
            top = static_cast<int>(std::floor(middle.y - radius));
  const int size = static_cast<int>(std::ceil(2 * radius)) + 1;
  if (left < 1 || top < 1 || left + size >= b.width - 1 || top + size >= b.height - 1) return std::nullopt;
  for (int y = top; y <= top + size; ++y) {
    for (int x = left; x <= left + size; ++x) {
      const Point from_middle = Point{x + 0.5, y + 0.5} - middle;
      const double distance = dot(from_middle, from_middle) / (radius * radius);
      if (distance > 1) continue;
      const Point g = std::exp(-2 * distance) * gradient_at(b, x, y);
      xx += g.x * g.x, xy += g.x * g.y, yy += g.y * g.y;
      right = right + dot(g, from_middle) * g;
    }
  }
  const double half_sum = (xx + yy) / 2, half_difference = std::hypot((xx - yy) / 2, xy);
  if (!(half_sum - half_difference > least_ratio * (half_sum + half_difference))) return std::nullopt;
  const double determinant = xx * yy - xy * xy;
  return Point{(yy * right.x - xy * right.y) / determinant, (xx * right.y - xy * right.x) / determinant};
}

}  // namespace

std::optional<Point> quarters_meet(const Brightness& brightness, Point near, double radius) {
  Point place = near;
  for (int i = 0; i < most_steps; ++i) {
    const auto step = nearest_to_edges(brightness, place, radius);
    if (!step) return std::nullopt;
    place = place + *step;
    if (!(length(place - near) < radius)) return std::nullopt;
    if (length(*step) < at_rest) break;
  }
  return place;
}

}  // namespace ordinatio::inline photo
