#include "strokes/simplify.h"

#include <algorithm>

namespace ordinatio::inline strokes {
namespace {

double distance_to_edge(Point p, Point a, Point b) {
  const Point along = b - a;
  const double square = dot(along, along);
  const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return length(p - (a + t * along));
}

}  // namespace

Polygon simplified(const Polygon& polygon, double tolerance) {
  if (polygon.size() < 3) return {};
  const auto at = [&](std::size_t i) { return polygon[i % polygon.size()]; };
  const auto far = std::ranges::max_element(polygon, {}, [&](Point p) { return length(p - polygon.front()); });
  const auto middle = static_cast<std::size_t>(far - polygon.begin());
  std::vector<bool> kept(polygon.size() + 1);
  kept.front() = kept[middle] = kept.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> spans{{0, middle}, {middle, polygon.size()}};
  while (!spans.empty()) {
    const auto [begin, end] = spans.back();
    spans.pop_back();
    double most = tolerance;
    std::size_t worst = begin;
    for (std::size_t i = begin + 1; i < end; ++i) {
      const double distance = distance_to_edge(polygon[i], at(begin), at(end));
      if (distance > most) most = distance, worst = i;
    }
    if (worst == begin) continue;
    kept[worst] = true;
    spans.emplace_back(begin, worst);
    spans.emplace_back(worst, end);
  }
  Polygon corners;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    if (kept[i]) corners.push_back(polygon[i]);
  }
  return corners.size() < 3 ? Polygon{} : corners;
}

}  // namespace ordinatio::inline strokes
