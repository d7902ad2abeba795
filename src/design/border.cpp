#include "design/border.h"

#include <algorithm>
#include <iterator>

#include "design/layers.h"

namespace ordinatio::inline design {
namespace {

constexpr double area_grid = 1e-4;  // mm

/// A ring between two parallel curves where it is filled, else one line; what stands in its way left aside.
std::optional<Path> plain_border(const Outline& blank, const BorderPart& border) {
  const auto outer = inset(blank, border.distance);
  if (!outer) return std::nullopt;
  if (!is_filled(border.operation)) return path_of(*outer);
  const auto inner = inset(blank, reach_of(border));
  if (!inner) return std::nullopt;
  Path ring = path_of(*outer);
  ring.append(reversed(path_of(*inner)));
  return ring;
}

Polygons polygons_of(const std::vector<ConvexHull>& hulls) {
  Polygons polygons;
  for (const ConvexHull& hull : hulls) polygons.push_back(hull.vertices);
  return polygons;
}

/// What lies at least `distance` inside the piece, chips and all.
Polygons inside(const Blank& blank, double distance) {
  const auto outline = inset(blank.outline, distance);
  if (!outline) return {};
  return difference({polygon_of(region_of(*outline))}, polygons_of(chips_grown(blank, distance)), area_grid);
}

/// From and to, as shares of a segment.
using Stretch = std::pair<double, double>;

Stretch stretch_inside(const ConvexRegion& thing, Point a, Point b) {
  double from = 0, to = 1;
  for (const HalfPlane& edge : thing.edges) {
    const double at_a = dot(edge.normal, a) - edge.offset, at_b = dot(edge.normal, b) - edge.offset;
    if (at_a >= 0 && at_b >= 0) return {1, 0};
    if (at_a > 0) from = std::max(from, at_a / (at_a - at_b));
    if (at_b > 0) to = std::min(to, at_a / (at_a - at_b));
  }
  return {from, to};
}

/// The stretches of a segment that lie in none of the things, in their order.
std::vector<Stretch> stretches_outside(const std::vector<ConvexRegion>& things, Point a, Point b) {
  std::vector<Stretch> taken;
  for (const ConvexRegion& thing : things) {
    const Stretch inside = stretch_inside(thing, a, b);
    if (inside.first < inside.second) taken.push_back(inside);
  }
  std::ranges::sort(taken);
  std::vector<Stretch> free;
  double at = 0;
  for (const Stretch& stretch : taken) {
    if (stretch.first > at) free.emplace_back(at, stretch.first);
    at = std::max(at, stretch.second);
  }
  if (at < 1) free.emplace_back(at, 1);
  return free;
}

/// The polygon's line where it meets none of the things: closed where it meets none at all.
void add_line_outside(Path& path, const Polygon& polygon, const std::vector<ConvexRegion>& things) {
  const auto stretches_at = [&](std::size_t i) {
    return stretches_outside(things, polygon[i], polygon[(i + 1) % polygon.size()]);
  };
  const auto is_whole = [](const std::vector<Stretch>& stretches) { return stretches == std::vector{Stretch{0, 1}}; };
  std::size_t start = 0;  // at a side that is cut, so that no run goes over the polygon's first corner
  while (start < polygon.size() && is_whole(stretches_at(start))) ++start;
  if (start == polygon.size()) {
    path.append(path_of(Polygons{polygon}));
    return;
  }
  bool running = false;
  for (std::size_t k = 1; k <= polygon.size(); ++k) {
    const std::size_t i = (start + k) % polygon.size();
    const Point a = polygon[i], along = polygon[(i + 1) % polygon.size()] - a;
    const std::vector<Stretch> stretches = stretches_at(i);
    if (stretches.empty() || stretches.front().first > 0) running = false;
    for (const auto& [from, to] : stretches) {
      if (!running) path.move_to(a + from * along);
      path.line_to(a + to * along);
      running = to == 1;
    }
  }
}

/// The same along chips, and with gaps where something is kept clear.
Path broken_border(const Blank& blank, const BorderPart& border, const std::vector<ConvexHull>& things) {
  const Polygons outer = inside(blank, border.distance);
  if (is_filled(border.operation)) {
    const Polygons ring = difference(outer, inside(blank, reach_of(border)), area_grid);
    return path_of(difference(ring, polygons_of(things), area_grid));
  }
  std::vector<ConvexRegion> regions;
  regions.reserve(things.size());
  for (const ConvexHull& thing : things) regions.push_back(region_of(thing.vertices));
  Path path;
  for (const Polygon& polygon : outer) add_line_outside(path, polygon, regions);
  return path;
}

}  // namespace

double reach_of(const BorderPart& border) { return border.distance + (is_filled(border.operation) ? border.width : 0); }

std::vector<ConvexHull> chips_grown(const Blank& blank, double distance) {
  std::vector<ConvexHull> grown;
  for (const Polygon& chip : blank.chips)
    std::ranges::move(obstacles_of({"", chip, 0, distance}), std::back_inserter(grown));
  return grown;
}

std::optional<Path> border_path(const Blank& blank, const BorderPart& border, const std::vector<ConvexHull>& things) {
  std::optional<Path> plain = plain_border(blank.outline, border);
  if (!plain) return std::nullopt;
  ClearArea area{region_of(blank.outline), things};
  std::ranges::move(chips_grown(blank, border.distance), std::back_inserter(area.obstacles));
  if (distance_outside(area, *plain, is_filled(border.operation)) <= edge_slack) return plain;
  return broken_border(blank, border, things);
}

}  // namespace ordinatio::inline design
