#include "design/spacing.h"

#include <algorithm>
#include <cmath>

#include "design/border.h"
#include "design/layers.h"

namespace ordinatio::inline design {
namespace {

/// Parts that the design draws nearer than this keep that all the same, where it draws them apart by so much: two beams'
/// widths and a little play, so that inks do not run into one.
constexpr double least_gap = 0.5;  // mm

Outline scaled(Outline outline, double across, double up) {
  for (Point& p : outline.vertices) p = {across * p.x, up * p.y};
  for (double& radius : outline.radii) radius *= std::min(across, up);
  return outline;
}

double distance_to_segment(Point p, Point a, Point b) {
  const Point along = b - a;
  const double square = dot(along, along);
  const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return length(p - (a + t * along));
}

/// mm between a line and a convex polygon; 0 where they meet.
double distance_between(Point a, Point b, const ConvexRegion& region, const Polygon& polygon) {
  if (polygon.empty()) return 1e300;
  if (depth_inside(region, a, b) > 0) return 0;
  double least = 1e300;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point c = polygon[i], d = polygon[(i + 1) % polygon.size()];
    least = std::min({least, distance_to_segment(a, c, d), distance_to_segment(b, c, d), distance_to_segment(c, a, b)});
  }
  return least;
}

/// How far within the border a box stands, or how far without; nothing where it meets the border.
std::optional<FromBorder> from_border(const Bounds& box, const Outline& outline, const BorderPart& border) {
  if (const auto inner = inset(outline, reach_of(border))) {
    const ConvexRegion within = region_of(*inner);
    double depth = 1e300;
    for (const Point corner : polygon_of_box(box)) depth = std::min(depth, -distance_outside(within, corner));
    if (depth >= 0) return FromBorder{depth, true};
  }
  const auto outer = inset(outline, border.distance);
  if (!outer) return std::nullopt;
  const ConvexRegion within = region_of(*outer);
  const Polygon polygon = polygon_of(within), corners = polygon_of_box(box);
  if (polygon.empty() || overlap(ConvexHull{corners}, ConvexHull{polygon}, 0)) return std::nullopt;
  double apart = 1e300;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    apart = std::min(apart, distance_between(corners[i], corners[(i + 1) % corners.size()], within, polygon));
  }
  return FromBorder{apart, false};
}

/// The gap that two parts keep which the design draws `drawn` apart, and `here` on a plain piece of this size.
double kept_gap(double drawn, double here, double gap) {
  if (drawn >= gap) return gap;
  return std::clamp(here, std::min(drawn, least_gap), drawn);
}

void part(Bounds& a, Bounds& b, double gap) {
  if (distance_between(a, b) >= gap) return;
  const double across = std::max(b.left - a.right, a.left - b.right);
  const double up = std::max(b.bottom - a.top, a.bottom - b.top);
  const double each = (gap - std::max(across, up)) / 2;
  if (across >= up) {
    const bool a_first = a.left < b.left;
    (a_first ? a : b).right -= each;
    (a_first ? b : a).left += each;
  } else {
    const bool a_first = a.bottom < b.bottom;
    (a_first ? a : b).top -= each;
    (a_first ? b : a).bottom += each;
  }
}

/// The boxes of logos, then those of texts that have one.
template <class AnyDesign>
auto boxes_of(AnyDesign& design) {
  std::vector<decltype(&design.logos.front().box)> boxes;
  for (auto& logo : design.logos) boxes.push_back(&logo.box);
  for (auto& text : design.texts) {
    if (text.box) boxes.push_back(&*text.box);
  }
  return boxes;
}

bool line_keeps_off(const ClearArea& room, const Polygon& polygon, Point a, Point b, double gap) {
  const auto is_beyond = [&](const HalfPlane& edge) {
    return std::min(dot(edge.normal, a), dot(edge.normal, b)) >= edge.offset + gap;
  };
  if (std::ranges::any_of(room.region.edges, is_beyond)) return true;
  const auto is_deep_in = [&](const ConvexHull& obstacle) {
    return std::ranges::all_of(region_of(obstacle.vertices).edges, [&](const HalfPlane& edge) {
      return std::max(dot(edge.normal, a), dot(edge.normal, b)) <= edge.offset - gap;
    });
  };
  return std::ranges::any_of(room.obstacles, is_deep_in) || distance_between(a, b, room.region, polygon) >= gap;
}

}  // namespace

LogoSpacing logo_spacing(const Design& drawn, double across, double up) {
  LogoSpacing spacing;
  const Outline outline = scaled(drawn.blank.outline, across, up);
  for (const LogoPart& logo : drawn.logos) {
    std::vector<FromBorder>& from = spacing.emplace_back();
    for (const BorderPart& border : drawn.borders) {
      const FromBorder as_drawn = from_border(logo.box, drawn.blank.outline, border).value_or(FromBorder{});
      const FromBorder here = from_border(logo.box.stretched(across, up), outline, border).value_or(FromBorder{});
      const bool same_side = as_drawn.inside == here.inside;
      from.push_back({kept_gap(as_drawn.gap, same_side ? here.gap : 0, drawn.gap), as_drawn.inside});
    }
  }
  return spacing;
}

bool part_boxes(Design& laid, const Design& drawn) {
  const auto boxes = boxes_of(laid);
  const auto as_drawn = boxes_of(drawn);
  for (std::size_t b = 1; b < boxes.size(); ++b) {
    for (std::size_t a = 0; a < b; ++a) {
      // What is drawn nearer than the gap comes nearer on a smaller piece, as all of its distances do.
      if (distance_between(*as_drawn[a], *as_drawn[b]) >= drawn.gap) part(*boxes[a], *boxes[b], drawn.gap);
    }
  }
  return std::ranges::all_of(boxes, [](const Bounds* box) { return box->left < box->right && box->bottom < box->top; });
}

double distance_between(const Bounds& a, const Bounds& b) {
  const double across = std::max({b.left - a.right, a.left - b.right, 0.0});
  const double up = std::max({b.bottom - a.top, a.bottom - b.top, 0.0});
  return std::hypot(across, up);
}

HalfPlane edge_between(const Bounds& box, const Bounds& beside) {
  const HalfPlane edges[] = {{{1, 0}, box.left}, {{-1, 0}, -box.right}, {{0, 1}, box.bottom}, {{0, -1}, -box.top}};
  const auto apart = [&beside](const HalfPlane& edge) {
    const Point nearest{edge.normal.x > 0 ? beside.right : beside.left, edge.normal.y > 0 ? beside.top : beside.bottom};
    return edge.offset - dot(edge.normal, nearest);
  };
  return std::ranges::max(edges, {}, apart);
}

std::optional<ClearArea> drawn_in(const ClearArea& area, double distance, double sagitta) {
  ClearArea within;
  ConvexRegion region = area.region;
  for (HalfPlane& edge : region.edges) edge.offset -= distance;
  const Polygon polygon = polygon_of(region);
  if (polygon.empty()) return std::nullopt;
  within.region = region_of(polygon);
  for (const ConvexHull& obstacle : area.obstacles) within.obstacles.push_back(grown(obstacle, distance, sagitta));
  return within;
}

bool keeps_off(const ClearArea& room, const Path& border, double gap) {
  const Polygon polygon = polygon_of(room.region);
  for (const Polyline& line : flatten(border, curve_tolerance / 10)) {
    const std::size_t count = line.points.size();
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < count; ++i) {
      if (!line_keeps_off(room, polygon, line.points[i], line.points[(i + 1) % count], gap)) return false;
    }
  }
  return true;
}

}  // namespace ordinatio::inline design
