#include <algorithm>
#include <iterator>

#include "design/design.h"
#include "design/layers.h"

namespace ordinatio {
namespace {

/// How much of the blank a border takes up, from the edge inwards.
double reach_of(const BorderPart& border) { return border.distance + (is_filled(border.operation) ? border.width : 0); }

Fault no_room(const Design& design, const std::string& what, const std::string& why) {
  return {what, "design " + design.name, why, "Make it smaller in the design's file, or the blank larger"};
}

/// A ring between two parallel curves where it is filled, else one line.
std::optional<Path> border_path(const Outline& blank, const BorderPart& border) {
  const auto outer = inset(blank, border.distance);
  if (!outer) return std::nullopt;
  if (!is_filled(border.operation)) return path_of(*outer);
  const auto inner = inset(blank, reach_of(border));
  if (!inner) return std::nullopt;
  Path ring = path_of(*outer);
  ring.append(reversed(path_of(*inner)));
  return ring;
}

/// The logo as large as it can be in its box, in the box's middle.
Path logo_path(const LogoPart& part) {
  const Bounds ink = bounds_of(part.logo.fill);
  const double scale = std::min(part.box.width() / ink.width(), part.box.height() / ink.height());
  const Point shift = part.box.centre() - scale * ink.centre();
  return transformed(part.logo.fill, {scale, 0, 0, scale, shift.x, shift.y});
}

MaybeFault prepare_text(const Design& design, const ConvexRegion& inside_borders, TextPart& text) {
  const Bounds blank = bounds_of(path_of(design.blank));
  const Bounds box = text.box.value_or(blank);
  Polygon corners{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
  const Polygon room = polygon_of(intersection(inside_borders, region_of(corners)));
  if (room.empty()) return no_room(design, "a text has no room", "margin, borders and box leave nothing of the blank");
  text.area.area = {region_of(room), {}};
  for (const ConvexHull& obstacle : design.clear_area.obstacles) {
    if (overlap(obstacle, {room}, 0)) text.area.area.obstacles.push_back(obstacle);
  }
  text.area.widths = widths_of(text.area.area.region);
  text.area.target = box.centre();
  text.area.at_edge = text.box && text.block.alignment != Alignment::centre;
  if (text.area.at_edge) text.area.target.x = text.block.alignment == Alignment::left ? box.left : box.right;
  return std::nullopt;
}

}  // namespace

MaybeFault prepare_design(Design& design) {
  const auto clear = inset(design.blank, design.margin);
  if (!clear) return no_room(design, "the margin leaves no clear area", "it meets itself in the middle of the blank");
  design.clear_area = {region_of(*clear), {}};
  for (const KeptClear& thing : design.kept_clear) {
    std::ranges::move(obstacles_of(thing), std::back_inserter(design.clear_area.obstacles));
  }
  double innermost = design.margin;
  LayerStack layers;
  for (const BorderPart& border : design.borders) {
    const auto path = border_path(design.blank, border);
    if (!path) return no_room(design, "a border has no room", "it meets itself in the middle of the blank");
    layers.add(border.operation, *path);
    innermost = std::max(innermost, reach_of(border) + design.gap);
  }
  const auto inside = inset(design.blank, innermost);
  if (!inside)
    return no_room(design, "no room is left inside the border", "it meets itself in the middle of the blank");
  for (const LogoPart& logo : design.logos) {
    layers.add(logo.operation, logo_path(logo));
  }
  for (TextPart& text : design.texts) {
    if (auto fault = prepare_text(design, region_of(*inside), text)) return fault;
  }
  design.constant = std::move(layers).take();
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

}  // namespace ordinatio
