// What lines that are followed cover, and where they lie, measured without the code that made them.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/geometry.h"

namespace ordinatio {

inline std::size_t strokes_of(const Path& lines) {
  return static_cast<std::size_t>(std::ranges::count(lines.verbs(), Path::Verb::move));
}

/// mm of the lines that run along the angle, on the raster of the pitch: the rows without what joins them.
inline double rows_length(const Path& lines, double angle, double pitch) {
  const double turn = angle * std::numbers::pi / 180;
  const Point along{std::cos(turn), std::sin(turn)}, up{-along.y, along.x};
  double sum = 0;
  for (const Polyline& line : flatten(lines, 0.001)) {
    for (std::size_t i = 0; i + 1 < line.points.size(); ++i) {
      const Point a = line.points[i], b = line.points[i + 1];
      const double row = dot(up, a) / pitch - 0.5;
      if (std::abs(dot(up, b - a)) < 1e-9 && std::abs(row - std::round(row)) < 1e-6) sum += length(b - a);
    }
  }
  return sum;
}

inline double distance_to_edges(const Polygons& polygons, Point p) {
  double least = 1e300;
  for (const Polygon& polygon : polygons) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], edge = polygon[(i + 1) % polygon.size()] - a;
      const double square = dot(edge, edge);
      const double t = square > 0 ? std::clamp(dot(p - a, edge) / square, 0.0, 1.0) : 0;
      least = std::min(least, length(p - (a + t * edge)));
    }
  }
  return least;
}

inline bool is_inside(const Polygons& polygons, Point p) {
  int turns = 0;
  for (const Polygon& polygon : polygons) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      if ((a.y <= p.y) == (b.y <= p.y)) continue;
      if ((cross(b - a, p - a) > 0) == (b.y > a.y)) turns += b.y > a.y ? 1 : -1;
    }
  }
  return turns != 0;
}

/// How near the lines come to the edge of what they fill at the least, mm; below 0 outside. Looked at every `step` mm.
inline double least_depth(const Path& lines, const Polygons& covered, double step = 0.05) {
  double least = 1e300;
  for (const Polyline& line : flatten(lines, 0.001)) {
    const std::size_t count = line.points.size();
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < count; ++i) {
      const Point a = line.points[i], b = line.points[(i + 1) % count];
      const int steps = 1 + static_cast<int>(length(b - a) / step);
      for (int k = 0; k <= steps; ++k) {
        const Point p = a + (double(k) / steps) * (b - a);
        const double distance = distance_to_edges(covered, p);
        least = std::min(least, is_inside(covered, p) ? distance : -distance);
      }
    }
  }
  return least;
}

/// mm² that a round spot covers which follows the lines.
inline double swept_area(const Path& lines, double spot) {
  constexpr int sides = 16;
  const auto disc_at = [&](Point p, Polygon& into) {
    // A polygon of the disc's own area.
    const double radius = spot / 2 * std::sqrt(2 * std::numbers::pi / (sides * std::sin(2 * std::numbers::pi / sides)));
    for (int i = 0; i < sides; ++i) {
      const double turn = 2 * std::numbers::pi * i / sides;
      into.push_back(p + radius * Point{std::cos(turn), std::sin(turn)});
    }
  };
  Polygons parts;
  for (const Polyline& line : flatten(lines, 0.001)) {
    const std::size_t count = line.points.size();
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < count; ++i) {
      Polygon both;
      disc_at(line.points[i], both), disc_at(line.points[(i + 1) % count], both);
      parts.push_back(hull_of(both).vertices);
    }
  }
  return area_of(weld(parts, 1e-4));
}

}  // namespace ordinatio
