// The air around words, and how it gives way.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "design/layers.h"
#include "design/lettering.h"
#include "plaque.h"

namespace ordinatio::air_test {
using Catch::Matchers::Contains;

namespace {

Typesetter& setter() {
  static const FontLibrary library("none");
  static Typesetter typesetter(library);
  return typesetter;
}

Result<Artwork> composed(const Design& design, const std::vector<std::string>& lines) {
  const auto laid = laid_as_drawn(design);
  if (!laid.ok()) return laid.fault();
  return compose(*laid, {{"", lines, {}}, ""}, setter());
}

Artwork good(const Design& design, const std::vector<std::string>& lines) {
  auto artwork = composed(design, lines);
  if (!artwork.ok()) FAIL(describe(artwork.fault()));
  return std::move(*artwork);
}

Design airy(double air, double least = 1, double largest = 60) {
  Design design = plaque(least, largest);
  design.texts[0].air = air;
  return design;
}

Bounds ink_of(const Artwork& artwork) { return bounds_of(artwork.layers.front().path); }

bool tells_of_air(const Artwork& artwork) {
  return std::ranges::any_of(artwork.changes,
                             [](const std::string& change) { return change.find("less air") != std::string::npos; });
}

const std::vector<std::string> long_line{"Mind the hens, the geese and the gate"};

}  // namespace

TEST_CASE("air is a share of the room's smaller side, left free on every side") {
  // The room is 140 × 90 mm within the margin of 5.
  for (const double air : {0.04, 0.1, 0.3}) {
    for (const auto& lines : {long_line, {"Oak", "Ash", "Elm", "Yew", "Holly"}, {"Rose", "Cottage"}}) {
      const Bounds ink = ink_of(good(airy(air), lines));
      const double free = 90 * air;
      CHECK(std::min({ink.left - 5, ink.bottom - 5, 145 - ink.right, 95 - ink.top}) == Approx(free).margin(1e-4));
    }
  }
}

TEST_CASE("a design that asks for no air is set to the last micrometre") {
  const Bounds ink = ink_of(good(airy(0), long_line));
  CHECK(ink.left == Approx(5).margin(1e-6));
  CHECK(ink.right == Approx(145).margin(1e-6));
}

TEST_CASE("what is kept clear gets air as well, and a corner's arc no more than a hair of it") {
  Design design = airy(0.05);
  design.kept_clear = {{"nail", {{75, 50}}, 3, 2}};
  for (const auto& lines : {std::vector<std::string>{"The old", "Bakehouse"}, {"R"}, {"Ada", "Wren", "1874"}}) {
    Design all = design;
    all.texts[0].air = 0;
    const auto laid = laid_as_drawn(all);
    REQUIRE(laid.ok());
    const Artwork artwork = good(design, lines);
    double nearest = 1e300;
    for (const Polyline& line : flatten(artwork.layers.front().path, 0.001)) {
      for (const Point p : line.points) nearest = std::min(nearest, length(p - Point{75, 50}));
    }
    CHECK(nearest >= 3 + 2 + 0.05 * 90 - 0.01);
    CHECK(distance_outside(laid->rooms[0].area.area, artwork.layers.front().path, true) <= edge_slack);
  }
}

TEST_CASE("air gives way before an item is held, no further than it must, and the proof says so") {
  const double with_air = good(airy(0.1), long_line).cap_height, without = good(airy(0), long_line).cap_height;
  REQUIRE(with_air < without);
  const Artwork roomy = good(airy(0.1, with_air * 0.999), long_line);
  CHECK(roomy.cap_height == Approx(with_air));
  CHECK_FALSE(tells_of_air(roomy));

  const double between = 0.3 * with_air + 0.7 * without;
  const Artwork tight = good(airy(0.1, between), long_line);
  CHECK(tight.cap_height == Approx(between).epsilon(1e-9));
  CHECK(tells_of_air(tight));
  const Bounds ink = ink_of(tight);
  CHECK(ink.left - 5 > 1);  // what is left is on both sides
  CHECK(ink.left - 5 == Approx(145 - ink.right).margin(0.05));

  const auto held = composed(airy(0.1, without * 1.01), long_line);
  REQUIRE_FALSE(held.ok());
  CHECK_THAT(held.fault().what, Contains("the lettering would come to " + mm_text(without)));
}

TEST_CASE("air gives way to the beam's spot, too") {
  Design design = airy(0.1);
  const double with_air = good(design, long_line).stroke.width, without = good(airy(0), long_line).stroke.width;
  design.texts[0].least_stroke = (with_air + without) / 2;
  const Artwork artwork = good(design, long_line);
  CHECK_FALSE(artwork.illegible);
  CHECK(artwork.stroke.width == Approx((with_air + without) / 2).epsilon(1e-6));
  CHECK(tells_of_air(artwork));
}

TEST_CASE("air that would take all of a room is none") {
  Design design = airy(0.4);
  design.texts[0].box = Bounds{70, 10, 71, 90};
  design.kept_clear = {{"stamp", {{70, 50}, {71, 50}, {71, 52}, {70, 52}}, 0, 0}};
  CHECK(laid_as_drawn(design).ok());
}

TEST_CASE("on a smaller piece the air is a share of that piece's room") {
  const Design design = airy(0.1);
  Blank small;
  small.id = "S-1";
  small.outline = rectangle_outline(100, 60, Corner::square, 0);
  const auto laid = laid_on(design, small);
  REQUIRE(laid.ok());
  const auto artwork = compose(*laid, {{"", long_line, {}}, ""}, setter());
  REQUIRE(artwork.ok());
  CHECK(bounds_of(artwork->layers.front().path).left == Approx(5 + 0.1 * 50).margin(1e-4));
}

TEST_CASE("what is known of a size without setting it holds with air, and where air gives way") {
  for (const double least : {1.0, 4.4, 4.6, 4.8}) {
    const auto laid = laid_as_drawn(airy(0.1, least));
    REQUIRE(laid.ok());
    const LaidDesign& design = *laid;
    const Words words{{"", long_line, {}}, ""};
    ReadyWords ready(design, words, setter());
    const auto bound = ready.bound();
    REQUIRE(bound.ok());
    SettingRecords records;
    CHECK(ready.cap_height_on(design, records) <= cap_height_at_most(*bound, design) * (1 + 1e-9));
  }
}

namespace {

/// Words from 30 mm up, above a square logo that ends at 28 mm.
Design plaque_above_logo() {
  Design design = plaque(1, 60);
  LogoPart logo;
  logo.box = {65, 8, 85, 28};
  logo.logo = {path_of(Polygons{{{0, 0}, {20, 0}, {20, 20}, {0, 20}}}), {0, 0, 20, 20}};
  logo.operation = Operation::score;
  design.logos = {logo};
  design.texts[0].box = Bounds{5, 30, 145, 95};
  return design;
}

}  // namespace

TEST_CASE("a logo holds words back by their own x-height and by no more") {
  Design design = plaque_above_logo();
  for (const auto& lines : {std::vector<std::string>{"Rose", "Cottage"}, {"Oak", "Ash", "Elm"}}) {
    const Artwork artwork = good(design, lines);
    const Bounds ink = ink_of(artwork);
    CHECK(ink.bottom - 28 == Approx(artwork.x_height).epsilon(1e-6));
    CHECK(ink.top == Approx(95).margin(1e-6));
  }
  // Small words need no more than the box gives them.
  design.texts[0].max_cap_height = 3;
  CHECK(ink_of(good(design, {"Oak"})).centre().y == Approx(62.5).margin(1));
}

TEST_CASE("letters of several sizes keep the x-height of the largest from a logo") {
  Design design = plaque_above_logo();
  design.texts[0].sizes = BlockSizes::by_role;
  RolePart second{"second", {2}, {}, design.texts[0].look};
  second.look.size = 0.5;
  design.texts[0].roles = {second};
  const Artwork artwork = good(design, {"Rose", "Cottage"});
  CHECK(ink_of(artwork).bottom - 28 == Approx(2 * artwork.x_height).epsilon(1e-6));
}

}  // namespace ordinatio::air_test
