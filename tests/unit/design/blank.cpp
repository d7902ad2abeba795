#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "design/layers.h"
#include "design/lettering.h"
#include "plaque.h"

namespace ordinatio::blank_test {
using Catch::Matchers::Contains;

namespace {

Design plaque() { return ordinatio::plaque(2, 40); }

Blank piece(double width = 150, double height = 100) {
  Blank blank;
  blank.id = "P-1";
  blank.outline = rectangle_outline(width, height, Corner::square, 0);
  return blank;
}

Polygon box(double left, double bottom, double width, double height) {
  return {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}, {left, bottom + height}};
}

LaidDesign laid(const Design& design, const Blank& blank) {
  auto result = laid_on(design, blank);
  if (!result.ok()) FAIL(describe(result.fault()));
  return std::move(*result);
}

const FontLibrary& library() {
  static const FontLibrary library{"none"};
  return library;
}

Artwork engraved(const LaidDesign& design, std::vector<std::string> lines) {
  Typesetter typesetter{library()};
  auto artwork = compose(design, {{"", std::move(lines), {}}, ""}, typesetter);
  if (!artwork.ok()) FAIL(describe(artwork.fault()));
  return std::move(*artwork);
}

double distance_to(const Polygon& polygon, Point p) {
  double least = 1e300;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], along = polygon[(i + 1) % polygon.size()] - a;
    const double t = std::clamp(dot(p - a, along) / dot(along, along), 0.0, 1.0);
    least = std::min(least, length(p - (a + t * along)));
  }
  return least;
}

double least_distance(const Path& path, const Polygon& polygon) {
  double least = 1e300;
  for (const Polyline& line : flatten(path, 1e-3)) {
    for (const Point p : line.points) least = std::min(least, distance_to(polygon, p));
  }
  return least;
}

const std::vector<std::string> family{"The Fenwick Family", "at the Old Mill", "1874"};

}  // namespace

TEST_CASE("a measured piece that is as the nominal one is engraved alike") {
  const auto design = laid_as_drawn(plaque());
  REQUIRE(design.ok());
  const Artwork nominal = engraved(*design, family), measured = engraved(laid(plaque(), piece()), family);
  CHECK(nominal.hash == measured.hash);
  CHECK(measured.blank.id == "P-1");
}

TEST_CASE("ink keeps the margin from a chip, and uses the room beside it") {
  const std::vector<std::string> tall{"Ada", "Fenwick", "Ford", "1874"};
  Blank chipped = piece();
  chipped.chips = {box(0, 70, 60, 30)};
  const Artwork whole = engraved(laid(plaque(), piece()), tall);
  REQUIRE(least_distance(whole.layers[0].path, chipped.chips[0]) < 4);  // else the chip would be in nobody's way
  const Artwork artwork = engraved(laid(plaque(), chipped), tall);
  CHECK(least_distance(artwork.layers[0].path, chipped.chips[0]) >= 5 - 1e-6);
  CHECK(artwork.cap_height <= whole.cap_height * (1 + 1e-9));
  CHECK(artwork.cap_height > engraved(laid(plaque(), piece(150, 70)), tall).cap_height);
}

TEST_CASE("a deeper chip, a larger thing or a wider margin never makes lettering larger") {
  double before = 1e300;
  for (const double depth : {0.0, 5.0, 12.0, 25.0, 40.0}) {
    Blank blank = piece();
    if (depth > 0) blank.chips = {box(100, 0, 50, depth)};
    const double cap_height = engraved(laid(plaque(), blank), family).cap_height;
    CHECK(cap_height <= before + 1e-9);
    before = cap_height;
  }
  before = 1e300;
  for (const double size : {2.0, 8.0, 16.0, 30.0}) {
    Blank blank = piece();
    blank.kept_clear = {{"stamp", box(10, 60, size, size), 0, 2}};
    const double cap_height = engraved(laid(plaque(), blank), family).cap_height;
    CHECK(cap_height <= before + 1e-9);
    before = cap_height;
  }
}

TEST_CASE("corners of their own cut the clear area where they are") {
  Blank rounded = piece();
  rounded.outline = rectangle_outline(150, 100, {CornerShape{}, {Corner::rounded, 18}, {}, {Corner::cut, 20, 10}});
  const LaidDesign design = laid(plaque(), rounded);
  CHECK(distance_outside(design.clear_area.region, Point{5, 5}) == Approx(0).margin(1e-9));
  // The arc of 18 mm about (132, 18), moved inwards by the margin.
  CHECK(distance_outside(design.clear_area.region, Point{132, 18} + 13 * Point{std::sqrt(0.5), -std::sqrt(0.5)}) ==
        Approx(0).margin(arc_sagitta));
  CHECK(distance_outside(design.clear_area.region, Point{5, 95}) > 5);
  CHECK_NOTHROW(engraved(design, family));
}

TEST_CASE("a border follows the edge round a chip and stops short of what is kept clear") {
  Design design = plaque();
  design.borders = {{5, 0.6, Operation::engrave}};
  Blank blank = piece();
  blank.chips = {box(70, 90, 20, 10)};
  blank.kept_clear = {{"stamp", box(0, 40, 15, 12), 0, 2}};
  const LaidDesign on_piece = laid(design, blank);
  REQUIRE(on_piece.constant.size() == 1);
  const Path& ring = on_piece.constant[0].path;
  CHECK(least_distance(ring, blank.chips[0]) == Approx(5).margin(kept_clear_sagitta + 1e-3));
  CHECK(least_distance(ring, blank.chips[0]) >= 5 - 1e-3);
  CHECK(least_distance(ring, blank.kept_clear[0].corners) >= 2 - 1e-3);
  // Round the chip it goes 10 mm down and up again; beside the stamp some 16 mm are missing: 0.6 mm wide all the way.
  const double plain = 0.6 * (2 * (140 + 90) - 4 * 0.6);
  CHECK(area_of(ring) == Approx(plain + 0.6 * (20 - 16)).margin(0.6 * 5));
  CHECK(area_of(ring) != Approx(plain).margin(0.1));
}

TEST_CASE("a border that is a line stops short of what is kept clear, too") {
  Design design = plaque();
  design.borders = {{6, 0, Operation::score}};
  Blank blank = piece();
  blank.kept_clear = {{"hole", {{75, 94}}, 3, 2}};
  const Path line = laid(design, blank).constant.at(0).path;
  CHECK(least_distance(line, {{75, 94}, {75.001, 94}}) >= 5 - 2e-3);
  double drawn = 0;
  for (const Polyline& part : flatten(line, 1e-3)) {
    CHECK_FALSE(part.closed);
    for (std::size_t i = 0; i + 1 < part.points.size(); ++i) drawn += length(part.points[i + 1] - part.points[i]);
  }
  CHECK(drawn == Approx(2 * (138 + 88) - 10).margin(0.1));
}

TEST_CASE("a logo that has no room where it stands is made smaller and stays in its box") {
  Design design = plaque();
  LogoPart logo;
  logo.box = {110, 60, 140, 90};
  logo.logo.fill.add_rectangle({0, 0, 10, 10});
  design.logos = {logo};
  design.texts[0].box = Bounds{10, 10, 100, 90};
  Blank blank = piece();
  blank.chips = {box(130, 80, 20, 20)};
  const Path path = laid(design, blank).constant.at(0).path;
  const Bounds ink = bounds_of(path);
  CHECK(ink.width() < 30);
  CHECK(ink.width() > 10);
  CHECK(ink.left >= 110 - 1e-6);
  CHECK(ink.top <= 90 + 1e-6);
  CHECK(least_distance(path, blank.chips[0]) >= 5 - 1e-6);
}

TEST_CASE("on a shorter piece boxes keep their share of width and height") {
  Design design = plaque();
  design.texts[0].box = Bounds{75, 50, 150, 100};
  const LaidDesign short_one = laid(design, piece(138, 100));
  CHECK(short_one.texts[0].box->left == Approx(69));
  CHECK(short_one.rooms[0].area.target.x == Approx(103.5));
}

TEST_CASE("a piece with no room says so by its name") {
  const auto narrow = laid_on(plaque(), piece(150, 9));
  REQUIRE_FALSE(narrow.ok());
  CHECK_THAT(describe(narrow.fault()), Contains("blank P-1") && Contains("on this piece"));
}

TEST_CASE("no lettering is larger than its bound, and in a rectangle kept lines reach it") {
  Typesetter typesetter{library()};
  const std::vector<std::vector<std::string>> texts{
      family,
      {"Ada"},
      {"In loving memory of", "Grandmother Josephine", "who baked for all of us", "1921 – 2009"},
      {"A long sentence in one single line that may be parted"}};
  std::size_t reached = 0;
  for (const LineBreaks breaks : {LineBreaks::kept, LineBreaks::free}) {
    for (const auto& lines : texts) {
      Design design = plaque();
      design.texts[0].breaks = breaks;
      const Words words{{"", lines, {}}, ""};
      ReadyWords ready(design, words, typesetter);
      const auto bound = ready.bound();
      REQUIRE(bound.ok());
      for (int kind = 0; kind < 4; ++kind) {
        Blank blank = piece(150 - 5 * kind, 100 - 9 * kind);
        if (kind == 2) blank.chips = {box(0, 60, 30, 22)};
        if (kind == 3) blank.kept_clear = {{"stamp", box(20, 20, 30, 12), 0, 2}};
        const LaidDesign on_piece = laid(design, blank);
        SettingRecords records;
        const double most = cap_height_at_most(*bound, on_piece), truly = ready.cap_height_on(on_piece, records);
        CHECK(truly <= most * (1 + 1e-9));
        CHECK(truly == Approx(engraved(on_piece, lines).cap_height).epsilon(1e-12));
        if (breaks == LineBreaks::kept && kind < 2) CHECK(truly == Approx(most).epsilon(1e-9));
        reached += truly > 0.999 * most;
      }
    }
  }
  CHECK(reached >= 8);
}

TEST_CASE("a quarter turn takes the upper edge to the left, and four of them change nothing") {
  Blank blank = piece(150, 100);
  blank.chips = {box(20, 93, 30, 7)};
  blank.kept_clear = {{"stamp", box(5, 10, 20, 12), 0, 2}};
  const Blank turned = quarter_turned(blank);
  CHECK(turned.turned);
  const auto bounds = [](const Polygon& polygon) { return bounds_of(path_of(Polygons{polygon})); };
  CHECK(bounds(turned.outline.vertices) == Bounds{0, 0, 100, 150});
  CHECK(bounds(turned.chips[0]) == Bounds{0, 20, 7, 50});
  CHECK(bounds(turned.kept_clear[0].corners) == Bounds{78, 5, 90, 25});
  CHECK(area_of(turned.chips[0]) == 210);
  const Blank back = quarter_turned(quarter_turned(quarter_turned(turned)));
  CHECK(back.chips == blank.chips);
  CHECK_FALSE(back.turned);
}

}  // namespace ordinatio::blank_test
