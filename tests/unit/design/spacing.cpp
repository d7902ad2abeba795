// Parts of one item and the gap between them, on pieces of every shape: seeded, so that a failure can be had again.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "design/layers.h"
#include "plaque.h"

namespace ordinatio::spacing_test {

namespace {

Polygon box(double left, double bottom, double width, double height) {
  return {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}, {left, bottom + height}};
}

/// An eight-spoked wheel: its hull is much more than its ink.
Logo wheel() {
  Logo logo;
  logo.box = {0, 0, 20, 20};
  Polygons spokes;
  for (int i = 0; i < 4; ++i) {
    const double angle = i * 3.14159265358979 / 4;
    const Point along{10 * std::cos(angle), 10 * std::sin(angle)}, across{-std::sin(angle), std::cos(angle)};
    spokes.push_back({Point{10, 10} + along + across, Point{10, 10} - along + across, Point{10, 10} - along - across,
                      Point{10, 10} + along - across});
  }
  for (Polygon& spoke : spokes) {
    if (area_of(spoke) < 0) std::ranges::reverse(spoke);
  }
  logo.fill = path_of(weld(spokes, 1e-6));
  return logo;
}

/// A logo below, words above it, a border around both: each part by an operation of its own, so that they can be told
/// apart in the artwork.
Design parted_design() {
  Design design = plaque(1, 30);
  design.borders = {{5, 0.8, Operation::engrave}};
  LogoPart logo;
  logo.box = {60, 10, 85, 35};
  logo.logo = wheel();
  logo.operation = Operation::score;
  design.logos = {logo};
  design.texts[0].box = Bounds{10, 40, 140, 90};
  design.texts[0].operation = Operation::mark;
  TextPart date = design.texts[0];
  date.words = DatePart{};
  date.box = Bounds{95, 10, 140, 30};
  date.operation = Operation::cut;
  date.block.alignment = Alignment::right;
  design.texts.push_back(date);
  return design;
}

double distance_to(const Polyline& line, Point p) {
  double least = 1e300;
  const std::size_t count = line.points.size();
  for (std::size_t i = 0; i + (line.closed ? 0 : 1) < count; ++i) {
    const Point a = line.points[i], along = line.points[(i + 1) % count] - a;
    const double t = std::clamp(dot(p - a, along) / std::max(1e-30, dot(along, along)), 0.0, 1.0);
    least = std::min(least, length(p - (a + t * along)));
  }
  return least;
}

/// Between the lines of two paths, by their corners.
double least_distance(const Path& a, const Path& b) {
  const std::vector<Polyline> ones = flatten(a, 0.02), others = flatten(b, 0.02);
  double least = 1e300;
  const auto look = [&least](const std::vector<Polyline>& from, const std::vector<Polyline>& to) {
    for (const Polyline& line : from) {
      for (const Point p : line.points) {
        for (const Polyline& other : to) least = std::min(least, distance_to(other, p));
      }
    }
  };
  look(ones, others);
  look(others, ones);
  return least;
}

/// mm² that are filled by one rule and not by the other, had all of it been engraved.
double disputed(const std::vector<Layer>& layers) {
  Polygons all;
  for (const Layer& layer : layers) std::ranges::move(polygons_of(layer.path, 1e-3), std::back_inserter(all));
  return std::abs(area_of(weld(all, 1e-5)) - area_of(weld(all, 1e-5, FillRule::even_odd)));
}

const Path& path_of_operation(const std::vector<Layer>& layers, Operation operation) {
  return std::ranges::find(layers, operation, &Layer::operation)->path;
}

struct Chance {
  std::mt19937 numbers;
  double between(double least, double most) { return std::uniform_real_distribution(least, most)(numbers); }
  bool one_in(int count) { return std::uniform_int_distribution(1, count)(numbers) == 1; }
};

/// Some millimetres shorter and out of square, with a corner off and chips along every edge.
Blank random_piece(Chance& chance) {
  Blank blank;
  blank.id = "P-1";
  const double width = chance.between(130, 158), height = chance.between(88, 104);
  const auto skew = [&] { return chance.one_in(2) ? 0.0 : chance.between(0, 4); };
  Polygon corners{{0, skew()}, {width - skew(), 0}, {width, height - skew()}, {skew(), height}};
  if (chance.one_in(3))
    corners = {
        {0, 0}, {width - chance.between(5, 30), 0}, {width, chance.between(5, 30)}, {width, height}, {0, height}};
  blank.outline = {corners, {}};
  if (chance.one_in(3)) blank.outline = rectangle_outline(width, height, Corner::rounded, chance.between(1, 15));
  const int chips = std::uniform_int_distribution(0, 3)(chance.numbers);
  for (int i = 0; i < chips; ++i) {
    const double at = chance.between(5, width - 45), wide = chance.between(5, 40), deep = chance.between(1, 14);
    if (chance.one_in(2))
      blank.chips.push_back(box(at, 0, wide, deep));
    else if (chance.one_in(2))
      blank.chips.push_back(box(at, height - deep, wide, deep));
    else
      blank.chips.push_back({{0, 20}, {deep, 20 + wide / 4}, {deep / 2, 20 + wide}, {0, 20 + wide}});
  }
  return blank;
}

const FontLibrary& library() {
  static const FontLibrary library{"none"};
  return library;
}

constexpr double slack = 0.05;  // mm: chords of borders' and chips' arcs, and of the letters here

}  // namespace

TEST_CASE("a logo keeps its gap from a border that goes round a chip below it") {
  Design design = plaque(2, 40);
  design.borders = {{5, 0.8, Operation::engrave}};
  LogoPart logo;
  logo.box = {60, 10, 85, 35};
  logo.logo = wheel();
  logo.operation = Operation::score;
  design.logos = {logo};
  design.texts[0].box = Bounds{10, 45, 140, 90};
  REQUIRE(laid_as_drawn(design).ok());
  for (const double depth : {0.0, 2.0, 5.0, 9.0, 12.0}) {
    INFO(depth);
    Blank blank{"P-1", rectangle_outline(150, 100, Corner::square, 0), {}, {}};
    if (depth > 0) blank.chips = {box(60, 0, 20, depth)};
    const auto laid = laid_on(design, blank);
    REQUIRE(laid.ok());
    REQUIRE(laid->constant.size() == 2);
    CHECK(least_distance(laid->constant[0].path, laid->constant[1].path) >= design.gap - slack);
    CHECK(disputed(laid->constant) < 1e-3);
  }
}

TEST_CASE("a logo that a chip would make too small is none: the piece is not taken") {
  Design design = plaque(2, 40);
  design.borders = {{5, 0.8, Operation::engrave}};
  LogoPart logo;
  logo.box = {60, 10, 85, 35};
  logo.logo = wheel();
  design.logos = {logo};
  design.texts[0].box = Bounds{10, 45, 140, 90};
  REQUIRE(laid_as_drawn(design).ok());
  const auto laid = laid_on(design, {"P-1", rectangle_outline(150, 100, Corner::square, 0), {box(55, 0, 40, 19)}, {}});
  REQUIRE_FALSE(laid.ok());
  CHECK(laid.fault().what == "a logo has no room on this piece");
}

TEST_CASE("on a smaller piece boxes come no nearer than the gap, or than the design draws them") {
  Design design = plaque(1, 30);
  design.gap = 4;
  design.texts[0].box = Bounds{10, 54, 140, 90};
  TextPart second = design.texts[0], third = design.texts[0];
  second.box = Bounds{10, 30, 140, 50};  // 4 mm below: the gap
  third.box = Bounds{10, 10, 140, 28};   // 2 mm: the design wants it so
  design.texts = {design.texts[0], second, third};
  REQUIRE(laid_as_drawn(design).ok());
  const auto laid = laid_on(design, {"P-1", rectangle_outline(135, 75, Corner::square, 0), {}, {}});
  REQUIRE(laid.ok());
  CHECK(laid->texts[0].box->bottom - laid->texts[1].box->top == Approx(4));
  CHECK(laid->texts[1].box->bottom - laid->texts[2].box->top == Approx(1.5));
  CHECK(design.texts[1].box->top == 50);
}

TEST_CASE("parts of one item keep their gap on pieces of every shape, or the piece is not taken") {
  const unsigned seed = 2659;
  INFO("seed " << seed);
  Chance chance{std::mt19937(seed)};
  Typesetter typesetter{library()};
  Design design = parted_design();
  REQUIRE(laid_as_drawn(design).ok());
  int composed = 0;
  for (int trial = 0; trial < 120; ++trial) {
    INFO("trial " << trial);
    const auto laid = laid_on(design, random_piece(chance));
    if (!laid.ok()) continue;
    const auto artwork = compose(*laid, {{"", {"Quernby", "Mill & Leat"}, {}}, "2026-11-25"}, typesetter);
    if (!artwork.ok()) continue;
    ++composed;
    const auto path = [&](Operation operation) -> const Path& { return path_of_operation(artwork->layers, operation); };
    CHECK(disputed(artwork->layers) < 1e-3);
    const std::array parts{Operation::engrave, Operation::score, Operation::mark, Operation::cut};
    for (std::size_t b = 1; b < parts.size(); ++b) {
      for (std::size_t a = 0; a < b; ++a) {
        CHECK(least_distance(path(parts[a]), path(parts[b])) >= design.gap - slack);
      }
    }
  }
  CHECK(composed > 60);  // else nothing much was tried
}

}  // namespace ordinatio::spacing_test
