#include <algorithm>

#include "design/design_parts.h"

namespace ordinatio::inline design {
namespace {

constexpr double overlap_grid = 1e-4;  // mm
/// Less of a common area is no overlap but a touch that was rounded; prepare_design looks again, by distance.
constexpr double least_overlap = 0.01;     // mm²
constexpr std::size_t corner_limit = 500;  // of an outline: cutting it into pieces takes the square of it, or worse

std::string_view shape_key(TomlTable& table) {
  for (const std::string_view key : {"box", "outline", "circle"}) {
    if (table.has(key)) return key;
  }
  return "box";
}

Polygons covered_by(const KeptClear& thing) {
  Polygons pieces;
  for (const ConvexHull& piece : obstacles_of(thing)) pieces.push_back(piece.vertices);
  return pieces;
}

/// mm², with the polygons that the outline's curves become.
double common_area(const Polygons& things, const std::optional<Outline>& outline) {
  if (!outline) return 0;
  return area_of(intersection(things, {polygon_of(region_of(*outline))}, overlap_grid));
}

/// "stamp", with its margin, reaches from 8 to 32 mm across and from 6 to 20 mm up
std::string reach_of(const KeptClear& thing) {
  Bounds box;
  for (const Polygon& piece : covered_by(thing)) {
    for (const Point p : piece) box.add(p);
  }
  std::string text = thing.name.empty() ? "it" : "\"" + thing.name + "\"";
  const auto range = [&text](std::string_view before, double from, double to, std::string_view after) {
    text += before;
    append_number(text, from, 1);
    text += " to ";
    append_number(text, to, 1);
    text += after;
  };
  range(", with its margin, reaches from ", box.left, box.right, " mm across");
  range(" and from ", box.bottom, box.top, " mm up");
  return text;
}

void check_border_beside(const Design& design, const BorderPart& border, const KeptClear& thing, TomlTable& table) {
  const Polygons things = covered_by(thing);
  const double outer = common_area(things, inset(design.blank.outline, border.distance));
  const bool filled = is_filled(border.operation);
  const double left_alone =
      filled ? common_area(things, inset(design.blank.outline, border.distance + border.width)) : 0;
  // An engraved border covers what lies between its edges; a line cuts what lies on both sides of it.
  const double covered = outer - left_alone, beyond = area_of(weld(things, overlap_grid)) - outer;
  if (filled ? covered > least_overlap : std::min(outer, beyond) > least_overlap) {
    table.fault("distance", "leads the border over what is kept clear", reach_of(thing),
                "Move the border, or leave it out");
  }
}

void check_text_beside(const Design& design, const TextPart& text, const Polygons& things, TomlTable& table) {
  const auto clear = inset(design.blank.outline, design.margin);
  if (things.empty() || !clear) return;
  const Bounds whole{0, 0, design.width, design.height};
  const Polygons room =
      intersection({polygon_of_box(text.box.value_or(whole))}, {polygon_of(region_of(*clear))}, overlap_grid);
  if (area_of(difference(room, things, overlap_grid)) > least_overlap) return;
  table.fault("box", "leaves no room for the text", "what is kept clear takes all of it", "Move or enlarge the box");
}

void check_outline(const Polygon& outline, TomlTable& table) {
  if (outline.size() > corner_limit) {
    table.fault("outline", "has too many corners", "nobody measures more than 500", "Go round the thing more coarsely");
  } else if (area_of(weld({outline}, overlap_grid)) < least_overlap) {
    table.fault("outline", "has no area", "", "Go round the thing once, corner by corner");
  } else if (crossing_edges(outline)) {
    table.fault("outline", "crosses itself", "", "Go round the thing once, corner by corner");
  }
}

}  // namespace

KeptClear read_kept_clear(TomlTable& table) {
  KeptClear thing;
  std::optional<Bounds> box;
  std::optional<Circle> circle;
  table.read("name", thing.name);
  table.read("margin", thing.margin, any_distance);
  table.read("box", box);
  table.read("circle", circle);
  table.read("outline", thing.corners, any_place);
  const int shapes = table.has("box") + table.has("circle") + table.has("outline");
  if (shapes == 0) table.require("box", "box = [10, 10, 30, 20]");
  if (shapes > 1) {
    table.fault(table.has("circle") ? "circle" : "outline", "is one too many",
                "a thing kept clear is a box, or an outline, or a circle", "Make two [[keep_clear]] of it");
  }
  if (shapes == 1 && table.has("outline") && !thing.corners.empty()) {
    if (area_of(thing.corners) < 0) std::ranges::reverse(thing.corners);
    check_outline(thing.corners, table);
  }
  if (box) thing.corners = polygon_of_box(*box);
  if (circle) thing.corners = {circle->centre}, thing.radius = circle->radius;
  return thing;
}

void check_kept_clear(const Design& design, DesignTables& tables) {
  Polygons things;
  for (std::size_t i = 0; i < design.kept_clear.size(); ++i) {
    const KeptClear& thing = design.kept_clear[i];
    const Polygons covered = covered_by(thing);
    if (common_area(covered, design.blank.outline) == 0) {
      TomlTable& table = tables.kept_clear[i];
      table.fault(shape_key(table), "lies beside the blank", "", "Measure from the blank's lower-left corner, in mm");
    }
    for (std::size_t k = 0; k < design.borders.size(); ++k) {
      check_border_beside(design, design.borders[k], thing, tables.borders[k]);
    }
    for (std::size_t k = 0; k < design.logos.size(); ++k) {
      if (area_of(intersection(covered, {polygon_of_box(design.logos[k].box)}, overlap_grid)) > least_overlap) {
        tables.logos[k].fault("box", "overlaps what is kept clear", reach_of(thing), "Move the logo");
      }
    }
    things.insert(things.end(), covered.begin(), covered.end());
  }
  for (std::size_t k = 0; k < design.texts.size(); ++k) {
    check_text_beside(design, design.texts[k], things, tables.texts[k]);
  }
}

}  // namespace ordinatio::inline design
