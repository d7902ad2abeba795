#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "geometry/segments.h"

namespace ordinatio::inline geometry {

int wang_segments(std::span<const Point> control, double tolerance) {
  if (!(tolerance > 0)) throw std::domain_error("a flattening tolerance must be above zero");
  const auto degree = static_cast<double>(control.size()) - 1;
  double square = 0;
  for (std::size_t i = 0; i + 2 < control.size(); ++i) {
    const Point bend = control[i] - 2 * control[i + 1] + control[i + 2];
    square = std::max(square, dot(bend, bend));
  }
  const double wanted = std::ceil(std::sqrt(degree * (degree - 1) * std::sqrt(square) / (8 * tolerance)));
  return static_cast<int>(std::clamp(wanted, 1.0, double{segment_limit}));
}

std::vector<Polyline> flatten(const Path& path, double tolerance) {
  std::vector<Polyline> lines;
  const auto on_segment = [&](const Segment& segment) {
    Polygon& points = lines.back().points;
    const auto last = static_cast<std::size_t>(segment.degree);
    const int steps = segment.degree == 1 ? 1 : wang_segments({segment.control.data(), last + 1}, tolerance);
    for (int i = 1; i < steps; ++i) points.push_back(point_at(segment, double(i) / steps));
    points.push_back(segment.control[last]);
  };
  const auto end = [&](bool closed) {
    Polyline& line = lines.back();
    line.closed = closed;
    // A closed polyline implies its last edge: the start is not said twice.
    if (closed && line.points.size() > 1 && line.points.back() == line.points.front()) line.points.pop_back();
  };
  walk(
      path,
      [&](Point p) {
        lines.push_back({{p}, false});
      },
      on_segment, end);
  return lines;
}

Polygons polygons_of(const Path& path, double tolerance) {
  Polygons polygons;
  for (Polyline& line : flatten(path, tolerance)) {
    if (line.closed && line.points.size() > 2) polygons.push_back(std::move(line.points));
  }
  return polygons;
}

Path path_of(const Polygons& polygons) {
  Path path;
  for (const Polygon& polygon : polygons) {
    if (polygon.empty()) continue;
    path.move_to(polygon.front());
    for (std::size_t i = 1; i < polygon.size(); ++i) path.line_to(polygon[i]);
    path.close();
  }
  return path;
}

}  // namespace ordinatio::inline geometry
