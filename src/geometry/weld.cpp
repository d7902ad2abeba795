#include <algorithm>
#include <cmath>
#include <polyclipping/clipper.hpp>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {
namespace {

namespace cl = ClipperLib;

/// Clipper works on integers; coordinates are counted in steps of a grid.
cl::Path to_grid(const Polygon& polygon, double grid) {
  cl::Path path;
  path.reserve(polygon.size());
  for (const Point p : polygon) path.emplace_back(std::llround(p.x / grid), std::llround(p.y / grid));
  return path;
}

cl::Paths to_grid(const Polygons& polygons, double grid) {
  cl::Paths paths;
  paths.reserve(polygons.size());
  for (const Polygon& polygon : polygons) paths.push_back(to_grid(polygon, grid));
  return paths;
}

Polygons from_grid(const cl::Paths& paths, double grid) {
  Polygons polygons;
  polygons.reserve(paths.size());
  for (const cl::Path& path : paths) {
    Polygon& polygon = polygons.emplace_back();
    polygon.reserve(path.size());
    for (const auto& p : path) polygon.push_back({static_cast<double>(p.X) * grid, static_cast<double>(p.Y) * grid});
  }
  return polygons;
}

cl::Paths clip(cl::ClipType type, const cl::Paths& subject, const cl::Paths& other,
               cl::PolyFillType subject_rule = cl::pftNonZero) {
  cl::Clipper clipper;
  clipper.AddPaths(subject, cl::ptSubject, true);
  if (!other.empty()) clipper.AddPaths(other, cl::ptClip, true);
  cl::Paths result;
  clipper.Execute(type, result, subject_rule, cl::pftNonZero);
  return result;
}

double area_on_grid(const cl::Paths& paths) {
  double area = 0;
  for (const cl::Path& path : paths) area += cl::Area(path);
  return area;
}

cl::JoinType clipper_join(Join join) {
  return join == Join::mitre ? cl::jtMiter : join == Join::round ? cl::jtRound : cl::jtSquare;
}

/// Fine enough that the grid's rounding stays far below the tolerance of the curves.
double grid_for(double tolerance) { return tolerance / 64; }

}  // namespace

Polygons weld(const Polygons& polygons, double grid, FillRule rule) {
  const auto clipper_rule = rule == FillRule::even_odd ? cl::pftEvenOdd : cl::pftNonZero;
  return from_grid(clip(cl::ctUnion, to_grid(polygons, grid), {}, clipper_rule), grid);
}

Polygons intersection(const Polygons& a, const Polygons& b, double grid) {
  if (a.empty() || b.empty()) return {};
  return from_grid(clip(cl::ctIntersection, to_grid(a, grid), to_grid(b, grid)), grid);
}

Polygons difference(const Polygons& a, const Polygons& b, double grid) {
  return from_grid(clip(cl::ctDifference, to_grid(a, grid), to_grid(b, grid)), grid);
}

bool contours_overlap(const Path& path, double tolerance) {
  const double grid = grid_for(tolerance);
  const cl::Paths paths = to_grid(polygons_of(path, tolerance), grid);
  const double welded = area_on_grid(clip(cl::ctUnion, paths, {}));
  // On the grid the two areas are equal to the last digit when nothing crosses; curves that merely touch may
  // cross by a tolerance once they are chords, which is no overlap.
  const double least_seen = 100 * tolerance / grid;
  return std::abs(welded - area_on_grid(paths)) > least_seen * least_seen;
}

Polygons offset(const Polygons& polygons, double delta, Join join, double tolerance) {
  const double grid = grid_for(tolerance);
  cl::ClipperOffset offsetter(4.0, tolerance / grid);
  offsetter.AddPaths(to_grid(polygons, grid), clipper_join(join), cl::etClosedPolygon);
  cl::Paths result;
  offsetter.Execute(result, delta / grid);
  return from_grid(result, grid);
}

}  // namespace ordinatio::inline geometry
