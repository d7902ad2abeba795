#include <catch2/catch.hpp>

#include "plaque.h"

namespace ordinatio::compose_test {
using Catch::Matchers::Contains;

namespace {

Design plaque() { return ordinatio::plaque(3, 30); }

Words words(std::vector<std::string> lines, std::string date = "") {
  return {{"", std::move(lines), {}}, std::move(date)};
}

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  Result<Artwork> compose(Design design, const Words& what) {
    const auto laid = laid_as_drawn(design);
    if (!laid.ok()) return laid.fault();
    return ordinatio::compose(*laid, what, typesetter);
  }
  Artwork good(Design design, const Words& what) {
    auto artwork = compose(std::move(design), what);
    if (!artwork.ok()) FAIL(describe(artwork.fault()));
    return std::move(*artwork);
  }
};

Bounds ink_of(const Artwork& artwork) { return bounds_of(artwork.layers.at(0).path); }

}  // namespace

TEST_CASE("a wide line fills the clear area from side to side, upright in its middle") {
  Bench bench;
  const Bounds ink = ink_of(bench.good(plaque(), words({"The Old Mill House"})));
  CHECK(ink.left == Approx(5).margin(1e-4));
  CHECK(ink.right == Approx(145).margin(1e-4));
  CHECK(ink.bottom > 40);
  CHECK(ink.top < 60);
}

TEST_CASE("a short text stops at the largest cap height and stands in the middle") {
  Bench bench;
  const Artwork artwork = bench.good(plaque(), words({"HI"}));
  CHECK(artwork.cap_height == Approx(30).epsilon(1e-9));
  CHECK(ink_of(artwork).centre().x == Approx(75).margin(1e-6));
}

TEST_CASE("lettering under the least cap height is held and says what it would have come to") {
  Bench bench;
  const auto artwork = bench.compose(plaque(), words({std::string(400, 'm')}));
  REQUIRE_FALSE(artwork.ok());
  CHECK_THAT(artwork.fault().what, Contains("the lettering would come to 0.") && Contains("mm"));
  CHECK_THAT(artwork.fault().why, Contains("least cap height is 3 mm"));
  CHECK_THAT(artwork.fault().mend, Contains("line_breaks = \"added\" in the design"));
}

TEST_CASE("a text keeps clear of margin, border and gap") {
  Bench bench;
  Design design = plaque();
  design.borders.push_back({6, 1, Operation::engrave});
  const Artwork artwork = bench.good(design, words({"The Old Mill House"}));
  REQUIRE(artwork.layers.size() == 1);
  CHECK(bounds_of(artwork.layers[0].path).left == Approx(6).margin(1e-9));
  CHECK(bounds_of(artwork.layers[0].path).top == Approx(94).margin(1e-9));
  // The letters end a millimetre of border and three of gap inside it.
  design.borders[0].operation = Operation::score;
  const Artwork scored = bench.good(design, words({"The Old Mill House"}));
  REQUIRE(scored.layers.size() == 2);
  CHECK(ink_of(scored).left == Approx(9).margin(1e-4));
}

TEST_CASE("an engraved border has the area of its ring") {
  Bench bench;
  Design design = plaque();
  design.texts.clear();
  design.borders.push_back({6, 1, Operation::engrave});
  const auto laid = laid_as_drawn(design);
  REQUIRE(laid.ok());
  CHECK(area_of(laid->constant.at(0).path) == Approx(138 * 88 - 136 * 86).epsilon(1e-10));
}

TEST_CASE("a text box holds its text, flush where the design says so") {
  Bench bench;
  Design design = plaque();
  design.texts[0].box = Bounds{20, 20, 120, 80};
  design.texts[0].max_cap_height = 8;
  design.texts[0].block.alignment = Alignment::left;
  CHECK(ink_of(bench.good(design, words({"Mill", "House"}))).left == Approx(20).margin(1e-6));
  design.texts[0].block.alignment = Alignment::right;
  CHECK(ink_of(bench.good(design, words({"Mill", "House"}))).right == Approx(120).margin(1e-6));
  design.texts[0].block.alignment = Alignment::centre;
  CHECK(ink_of(bench.good(design, words({"Mill", "House"}))).centre().x == Approx(70).margin(1e-6));
}

TEST_CASE("a larger margin never gives larger letters, a larger blank never smaller ones") {
  Bench bench;
  double last = 1e9;
  for (const double margin : {2.0, 5.0, 9.0, 20.0}) {
    Design design = plaque();
    design.margin = margin;
    const double size = bench.good(design, words({"Millwheel", "1874"})).cap_height;
    CHECK(size <= last * (1 + 1e-9));
    last = size;
  }
  last = 0;
  for (const double width : {60.0, 100.0, 150.0, 400.0}) {
    Design design = plaque();
    design.width = width;
    design.blank.outline = rectangle_outline(width, 100, Corner::square, 0);
    const double size = bench.good(design, words({"Millwheel", "1874"})).cap_height;
    CHECK(size >= last * (1 - 1e-9));
    last = size;
  }
}

TEST_CASE("the hash tells artworks apart and nothing else") {
  Bench bench, other;
  const Artwork one = bench.good(plaque(), words({"One"}));
  CHECK(other.good(plaque(), words({"One"})).hash == one.hash);
  CHECK(bench.good(plaque(), words({"One."})).hash != one.hash);
  Design moved = plaque();
  moved.margin = 5.5;
  moved.texts[0].max_cap_height = 29.9;
  CHECK(bench.good(moved, words({"One"})).hash != one.hash);
}

TEST_CASE("the faces that were used are told with their checksums") {
  Bench bench;
  const Artwork artwork = bench.good(plaque(), words({"Mill 水"}));
  REQUIRE(artwork.faces.size() == 2);
  CHECK(artwork.faces[0].name == "cjk-sc");
  CHECK(artwork.faces[1].name == "serif");
  for (const UsedFace& face : artwork.faces) CHECK(face.checksum.size() == 64);
}

TEST_CASE("margins and borders that meet themselves are told") {
  Design design = plaque();
  design.margin = 60;
  CHECK_THAT(laid_as_drawn(design).fault().what, Contains("the margin leaves no clear area"));
  design = plaque();
  design.borders.push_back({3, 1, Operation::engrave});
  CHECK_THAT(laid_as_drawn(design).fault().what, Contains("a border or logo leaves the clear area"));
  design = plaque();
  design.texts[0].box = Bounds{0, 0, 4, 4};
  CHECK_THAT(laid_as_drawn(design).fault().what, Contains("a text has no room"));
}

TEST_CASE("date marks take the form of the design") {
  Bench bench;
  Design design = plaque();
  design.texts[0].words = DatePart{"long", "en-GB", "made on ", ""};
  const Artwork english = bench.good(design, words({}, "2026-11-25"));
  design.texts[0].words = WordsPart{{"made on 25 November 2026"}};
  CHECK(bench.good(design, words({})).hash == english.hash);
}

TEST_CASE("a serial number is set as it is given, with the words around it") {
  Bench bench;
  Design design = plaque();
  design.texts[0].words = NumberPart{"No. ", " of the mill"};
  const Artwork fourteenth = bench.good(design, {{}, "", "014"});
  CHECK(bench.good(design, {{}, "", "015"}).hash != fourteenth.hash);
  design.texts[0].words = WordsPart{{"No. 014 of the mill"}};
  CHECK(bench.good(design, words({})).hash == fourteenth.hash);
}

TEST_CASE("a design with a serial number is not composed without one") {
  Bench bench;
  Design design = plaque();
  design.texts[0].words = NumberPart{"No. ", ""};
  const Result<Artwork> artwork = bench.compose(design, words({}));
  REQUIRE_FALSE(artwork.ok());
  CHECK(artwork.fault().what == "no serial number is given");
  CHECK_THAT(artwork.fault().mend, Contains("--first-number"));
}

}  // namespace ordinatio::compose_test
