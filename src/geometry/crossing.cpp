#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
namespace {

/// On which side of the line from a to b a point lies: 1 left, −1 right, 0 on it.
int side(Point a, Point b, Point of) {
  const double turn = cross(b - a, of - a);
  return (turn > 0) - (turn < 0);
}

bool cross_one_another(Point a, Point b, Point c, Point d) {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

}  // namespace

std::optional<std::pair<std::size_t, std::size_t>> crossing_edges(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = i + 2; k < n; ++k) {
      if (i == 0 && k == n - 1) continue;  // neighbours
      if (cross_one_another(polygon[i], polygon[i + 1], polygon[k], polygon[(k + 1) % n])) return std::pair{i, k};
    }
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline geometry
