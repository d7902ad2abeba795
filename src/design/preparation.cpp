#include <algorithm>
#include <iterator>

#include "design/border.h"
#include "design/design.h"
#include "design/layers.h"

namespace ordinatio {
namespace {

Fault no_room(const Design& design, const std::string& what, const std::string& why) {
  if (!design.blank.id.empty()) {
    return {what + " on this piece", "blank " + design.blank.id, why,
            "Take another piece, or a design with less on it"};
  }
  return {what, "design " + design.name, why, "Make it smaller in the design's file, or the blank larger"};
}

/// What is kept clear on the piece, chips left aside.
std::vector<ConvexHull> things_of(const Design& design) {
  std::vector<ConvexHull> things;
  for (const auto* list : {&design.kept_clear, &design.blank.kept_clear}) {
    for (const KeptClear& thing : *list) std::ranges::move(obstacles_of(thing), std::back_inserter(things));
  }
  return things;
}

Polygon corners_of(const Bounds& box) {
  return {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

/// The part of an area that lies in a box; nothing where none does.
std::optional<ClearArea> part_in(const ClearArea& area, const Bounds& box) {
  const Polygon room = polygon_of(intersection(area.region, region_of(corners_of(box))));
  if (room.empty()) return std::nullopt;
  ClearArea part{region_of(room), {}};
  for (const ConvexHull& obstacle : area.obstacles) {
    if (overlap(obstacle, {room}, 0)) part.obstacles.push_back(obstacle);
  }
  return part;
}

/// The logo as large as it can be in its box, in the box's middle; where the piece leaves no room for that, as large as
/// it can be in what there is of the box. Nothing where there is none.
std::optional<Path> logo_path(const LogoPart& part, const ClearArea& clear) {
  const Bounds ink = bounds_of(part.logo.fill);
  const double scale = std::min(part.box.width() / ink.width(), part.box.height() / ink.height());
  const auto placed = [&part](double size, Point shift) {
    return transformed(part.logo.fill, {size, 0, 0, size, shift.x, shift.y});
  };
  Path path = placed(scale, part.box.centre() - scale * ink.centre());
  if (distance_outside(clear, path, is_filled(part.operation)) <= edge_slack) return path;
  const auto room = part_in(clear, part.box);
  if (!room) return std::nullopt;
  const ConvexHull hull = hull_of(part.logo.fill, curve_tolerance / 10 / scale);
  const auto placement = largest_copy({&hull, 1}, *room, {ink.centre(), part.box.centre(), scale, -1});
  if (!placement) return std::nullopt;
  return placed(placement->size, placement->shift);
}

MaybeFault prepare_text(const Design& design, const ClearArea& inside_borders, TextPart& text) {
  const Bounds box = text.box.value_or(bounds_of(path_of(design.blank.outline)));
  auto room = part_in(inside_borders, box);
  if (!room) return no_room(design, "a text has no room", "margin, borders and box leave nothing of the blank");
  text.area.area = *std::move(room);
  text.area.widths = widths_of(text.area.area.region);
  text.area.target = box.centre();
  text.area.at_edge = text.box && text.block.alignment != Alignment::centre;
  if (text.area.at_edge) text.area.target.x = text.block.alignment == Alignment::left ? box.left : box.right;
  return std::nullopt;
}

/// What lies at least `distance` inside the piece's edge and off all that is kept clear; nothing where nothing does.
std::optional<ClearArea> clear_area_at(const Design& design, double distance) {
  const auto inside = inset(design.blank.outline, distance);
  if (!inside) return std::nullopt;
  ClearArea area{region_of(*inside), chips_grown(design.blank, distance)};
  std::ranges::move(things_of(design), std::back_inserter(area.obstacles));
  return area;
}

MaybeFault check_constant(const Design& design) {
  for (const Layer& layer : design.constant) {
    if (distance_outside(design.clear_area.region, layer.path) > edge_slack) {
      return no_room(design, "a border or logo leaves the clear area", "it lies within the margin of the blank's edge");
    }
    if (distance_outside(design.clear_area, layer.path, is_filled(layer.operation)) > edge_slack) {
      return no_room(design, "a border or logo runs over something kept clear", "no ink may come near that");
    }
  }
  return std::nullopt;
}

Bounds scaled(const Bounds& box, double across, double up) {
  return {across * box.left, up * box.bottom, across * box.right, up * box.top};
}

}  // namespace

MaybeFault prepare_design(Design& design) {
  auto clear = clear_area_at(design, design.margin);
  if (!clear) return no_room(design, "the margin leaves no clear area", "it meets itself in the middle of the blank");
  design.clear_area = *std::move(clear);
  const std::vector<ConvexHull> things = things_of(design);
  double innermost = design.margin;
  LayerStack layers;
  for (const BorderPart& border : design.borders) {
    const auto path = border_path(design.blank, border, things);
    if (!path) return no_room(design, "a border has no room", "it meets itself in the middle of the blank");
    layers.add(border.operation, *path);
    innermost = std::max(innermost, reach_of(border) + design.gap);
  }
  const auto inside = clear_area_at(design, innermost);
  if (!inside)
    return no_room(design, "no room is left inside the border", "it meets itself in the middle of the blank");
  for (const LogoPart& logo : design.logos) {
    const auto path = logo_path(logo, design.clear_area);
    if (!path) return no_room(design, "a logo has no room", "what is left of its box is kept clear");
    layers.add(logo.operation, *path);
  }
  for (TextPart& text : design.texts) {
    if (auto fault = prepare_text(design, *inside, text)) return fault;
  }
  design.constant = std::move(layers).take();
  return check_constant(design);
}

Result<Design> laid_on(const Design& design, const Blank& blank) {
  Design laid = design;
  const Bounds box = bounds_of(path_of(blank.outline));
  const double across = box.width() / design.width, up = box.height() / design.height;
  laid.blank = blank;
  laid.width = box.width(), laid.height = box.height();
  for (TextPart& text : laid.texts) {
    if (text.box) text.box = scaled(*text.box, across, up);
  }
  for (LogoPart& logo : laid.logos) logo.box = scaled(logo.box, across, up);
  if (auto fault = prepare_design(laid)) return *std::move(fault);
  return laid;
}

}  // namespace ordinatio
