#include "paper/blank_facts.h"
#include "paper/paper.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline paper {
namespace {

constexpr double slack = 1e-3;              // mm; chips that were cut on a grid still reach the edge
constexpr std::size_t listed_corners = 12;  // of an outline: more are counted
constexpr double outline_tolerance = 0.01;  // mm

std::string range(double from, double to) { return one_place(from) + " to " + one_place(to); }

Bounds box_of(const Polygons& polygons) {
  Bounds box;
  for (const Polygon& polygon : polygons) {
    for (const Point p : polygon) box.add(p);
  }
  return box;
}

// ---- corners ----

constexpr std::array<std::string_view, 4> corner_names{"lower left", "lower right", "upper right", "upper left"};

bool alike(const CornerShape& a, const CornerShape& b) {
  return a.kind == b.kind && std::abs(a.across - b.across) < slack && std::abs(a.up - b.up) < slack;
}

std::string shape_text(const CornerShape& shape) {
  if (shape.kind == Corner::square) return "square";
  if (shape.kind == Corner::rounded) return "radius " + one_place(shape.across);
  return "cut " + one_place(shape.across) + " × " + one_place(shape.up);
}

/// The shape that most corners have.
CornerShape usual_shape(const std::array<CornerShape, 4>& shapes) {
  const auto count = [&](const CornerShape& shape) {
    return std::ranges::count_if(shapes, [&](const CornerShape& other) { return alike(shape, other); });
  };
  return *std::ranges::max_element(shapes, {}, count);
}

FactPlace corner_place(std::size_t corner, const CornerShape& shape, const Bounds& box) {
  const bool right = corner == 1 || corner == 2, top = corner >= 2;
  const Point at{right ? box.right : box.left, top ? box.top : box.bottom},
      inward{right ? -1.0 : 1.0, top ? -1.0 : 1.0};
  // An arc comes as near to its corner as this share of its radius; a cut, half of what it takes.
  const double share = shape.kind == Corner::rounded ? 1 - std::sqrt(0.5) : 0.5;
  return {at + share * Point{inward.x * shape.across, inward.y * shape.up}, inward};
}

/// The corners of the edge as it is drawn, from the one nearest to the lower left on.
std::string outline_text(const Blank& blank) {
  Polygons drawn = polygons_of(path_of(blank), outline_tolerance);
  const auto by_area = [](const Polygon& polygon) { return area_of(polygon); };
  Polygon edge = *std::ranges::max_element(drawn, {}, by_area);
  if (edge.size() > listed_corners) return "outline of " + std::to_string(edge.size()) + " corners";
  std::rotate(edge.begin(), std::ranges::min_element(edge, {}, [](Point p) { return p.x + p.y; }), edge.end());
  std::string text = "outline";
  for (const Point p : edge) text += " " + one_place(p.x) + "," + one_place(p.y);
  return text;
}

void add_corners(std::vector<BlankFact>& facts, const Blank& blank) {
  const Bounds box = bounds_of(path_of(blank.outline));
  const auto shapes = corner_shapes_of(blank.outline, box.right, box.top);
  if (!shapes) {
    facts.push_back({outline_text(blank), std::nullopt});
    return;
  }
  const CornerShape usual = usual_shape(*shapes);
  const bool all = std::ranges::all_of(*shapes, [&](const CornerShape& shape) { return alike(shape, usual); });
  facts.push_back({(all ? "corners " : "other corners ") + shape_text(usual), std::nullopt});
  for (std::size_t i = 0; i < 4; ++i) {
    const CornerShape& shape = (*shapes)[i];
    if (alike(shape, usual)) continue;
    facts.push_back({std::string(corner_names[i]) + " corner " + shape_text(shape), corner_place(i, shape, box)});
  }
}

// ---- chips ----

/// The sides of the box that a chip reaches.
struct Reached {
  bool left, bottom, right, top;
  [[nodiscard]] bool only_across() const { return left != right && bottom == top; }
  [[nodiscard]] bool only_up() const { return bottom != top && left == right; }
  [[nodiscard]] bool corner() const { return left != right && bottom != top; }
};
Reached reached_by(const Bounds& chip, const Bounds& box) {
  return {chip.left<box.left + slack, chip.bottom<box.bottom + slack, chip.right> box.right - slack, chip.top> box.top -
          slack};
}

bool is_rectangle(const Polygon& chip, const Bounds& box) {
  return std::abs(area_of(chip) - box.width() * box.height()) < slack * (box.width() + box.height());
}

BlankFact fact_of_chip(const Polygon& chip, const Bounds& box) {
  const Bounds b = box_of({chip});
  const Reached reached = reached_by(b, box);
  const bool whole = is_rectangle(chip, b);
  const std::string name = whole ? "chip" : "missing", depth = whole ? " deep" : " deep at most";
  if (reached.corner()) {
    const std::string corner = std::string(reached.top ? "upper" : "lower") + (reached.left ? " left" : " right");
    return {name + " at the " + corner + " corner, " + one_place(b.width()) + " × " + one_place(b.height()),
            FactPlace{{reached.left ? b.right : b.left, reached.top ? b.bottom : b.top},
                      {reached.left ? 1.0 : -1.0, reached.top ? -1.0 : 1.0}}};
  }
  if (reached.only_across()) {
    return {name + " on the " + (reached.left ? "left" : "right") + " edge, " + range(b.bottom, b.top) + ", " +
                one_place(b.width()) + depth,
            FactPlace{{reached.left ? b.right : b.left, b.centre().y}, {reached.left ? 1.0 : -1.0, 0}}};
  }
  if (reached.only_up()) {
    return {name + " on the " + (reached.top ? "top" : "bottom") + " edge, " + range(b.left, b.right) + ", " +
                one_place(b.height()) + depth,
            FactPlace{{b.centre().x, reached.top ? b.bottom : b.top}, {0, reached.top ? -1.0 : 1.0}}};
  }
  const double inward = b.centre().x < box.centre().x ? 1 : -1;
  return {name + " from " + range(b.left, b.right) + " across, " + range(b.bottom, b.top) + " up",
          FactPlace{{inward > 0 ? b.right : b.left, b.centre().y}, {inward, 0}}};
}

// ---- things kept clear ----

BlankFact fact_of_thing(const KeptClear& thing, const Bounds& box) {
  const Bounds b = box_of(outline_of(thing));
  std::string text = thing.name.empty() ? "kept clear" : thing.name;
  if (thing.corners.size() == 1) {
    text += ": radius " + one_place(thing.radius) + " about " + one_place(thing.corners[0].x) + "," +
            one_place(thing.corners[0].y);
  } else {
    text += ": " + range(b.left, b.right) + " across, " + range(b.bottom, b.top) + " up";
  }
  const double inward = b.centre().x < box.centre().x ? 1 : -1;
  return {text + ", margin " + one_place(thing.margin),
          FactPlace{{inward > 0 ? b.right : b.left, b.centre().y}, {inward, 0}}};
}

std::string factory_text(const std::array<bool, 4>& factory) {
  constexpr std::array<std::string_view, 4> names{"left", "bottom", "right", "top"};
  std::string text;
  for (std::size_t i = 0; i < 4; ++i) {
    if (factory[i]) text += (text.empty() ? "factory edges: " : ", ") + std::string(names[i]);
  }
  return text;
}

}  // namespace

std::string one_place(double value) {
  std::string text;
  append_number(text, value, 1);
  return text;
}

std::vector<BlankFact> facts_of_shape(const Blank& blank) {
  std::vector<BlankFact> facts;
  add_corners(facts, blank);
  const Bounds box = bounds_of(path_of(blank.outline));
  const bool by_outline = !corner_shapes_of(blank.outline, box.right, box.top);
  for (const Polygon& chip : blank.chips) {
    // Pockets of an outline are told by its corners.
    if (!by_outline || is_rectangle(chip, box_of({chip}))) facts.push_back(fact_of_chip(chip, box));
  }
  for (const KeptClear& thing : blank.kept_clear) facts.push_back(fact_of_thing(thing, box));
  if (facts.size() > shown_facts) {
    const std::size_t more = facts.size() - shown_facts;
    facts.resize(shown_facts);
    facts.push_back({"and " + std::to_string(more) + " more", std::nullopt});
  }
  return facts;
}

std::string material_of(const BlankPicture& piece) {
  std::string material = piece.material;
  if (piece.thickness) material += (material.empty() ? "" : ", ") + mm_text(*piece.thickness) + " thick";
  return material;
}

std::vector<BlankFact> facts_of_row(const BlankPicture& piece) {
  std::vector<BlankFact> facts;
  for (const std::string& text :
       {factory_text(piece.factory_edges), piece.used.empty() ? "" : "used: " + piece.used, piece.note}) {
    if (!text.empty()) facts.push_back({text, std::nullopt});
  }
  return facts;
}

}  // namespace ordinatio::inline paper
