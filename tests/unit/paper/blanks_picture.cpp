#include <catch2/catch.hpp>

#include "paper/blank_facts.h"
#include "paper/paper.h"
#include "write/write.h"

namespace ordinatio::blanks_picture_test {
using Catch::Contains;
using Lines = std::vector<std::string>;

namespace {

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}
Blank blank_of(const Outline& outline, std::vector<Polygon> chips = {}, std::vector<KeptClear> things = {}) {
  return {"S-1", outline, std::move(chips), std::move(things)};
}
Outline rectangle() { return rectangle_outline(150, 100, Corner::square, 0); }
Lines texts(const std::vector<BlankFact>& facts) {
  Lines lines;
  for (const BlankFact& fact : facts) lines.push_back(fact.text);
  return lines;
}
BlankPicture picture(const std::string& id, double width, double height) {
  BlankPicture piece;
  piece.blank = {id, rectangle_outline(width, height, Corner::square, 0), {}, {}};
  return piece;
}
std::size_t count(const std::string& text, const std::string& words) {
  std::size_t found = 0;
  for (std::size_t at = 0; (at = text.find(words, at)) != std::string::npos; ++at) ++found;
  return found;
}
std::size_t pages_in(const std::string& pdf) { return count(pdf, "/Type /Page\n") + count(pdf, "/Type /Page "); }

const FontLibrary& library() {
  static const FontLibrary fonts("none");
  return fonts;
}

}  // namespace

TEST_CASE("corners are told together where they are alike, and by name where one differs") {
  CHECK(texts(facts_of_shape(blank_of(rectangle()))) == Lines{"corners square"});
  CHECK(texts(facts_of_shape(blank_of(rectangle_outline(150, 100, Corner::cut, 8)))) == Lines{"corners cut 8 × 8"});
  const CornerShape cut{Corner::cut, 12, 8}, round{Corner::rounded, 18, 18};
  const auto facts = facts_of_shape(blank_of(rectangle_outline(150, 100, {cut, cut, round, cut})));
  CHECK(texts(facts) == Lines{"other corners cut 12 × 8", "upper right corner radius 18"});
  REQUIRE(facts[1].place);
  // On the arc: as far from its centre as the radius says, and inwards is towards the centre.
  const Point from_centre = facts[1].place->at - Point{132, 82};
  CHECK(length(from_centre) == Approx(18));
  CHECK(dot(from_centre, facts[1].place->inward) < 0);
}

TEST_CASE("an outline that is no rectangle is told by its corners, if they are few") {
  const Outline slanted{{{0, 0}, {150, 0}, {148, 99}, {3, 101}}, {}};
  CHECK(texts(facts_of_shape(blank_of(slanted))) == Lines{"outline 0,0 150,0 148,99 3,101"});
  const Outline many{polygon_of(region_of(rectangle_outline(150, 100, Corner::rounded, 40))), {}};
  CHECK_THAT(texts(facts_of_shape(blank_of(many)))[0], Contains("outline of ") && Contains(" corners"));
}

TEST_CASE("pockets of an outline are told by its corners, and chips besides") {
  const Outline slanted{{{0, 0}, {150, 0}, {148, 100}, {3, 101}}, {}};
  const Blank blank = blank_of(slanted, {{{60, 0}, {90, 0}, {75, 20}}, box(10, 0, 20, 5)});
  CHECK(texts(facts_of_shape(blank)) == Lines{"outline 0,0 10,0 10,5 20,5 20,0 60,0 75,20 90,0 150,0 148,100 3,101",
                                              "chip on the bottom edge, 10 to 20, 5 deep"});
}

TEST_CASE("a chip is told by its edge, from where to where, and how deep") {
  const auto told = [](const Polygon& chip) { return texts(facts_of_shape(blank_of(rectangle(), {chip}))).at(1); };
  CHECK(told(box(40, 93, 62, 100)) == "chip on the top edge, 40 to 62, 7 deep");
  CHECK(told(box(40, 0, 62.5, 7)) == "chip on the bottom edge, 40 to 62.5, 7 deep");
  CHECK(told(box(0, 40, 7, 62)) == "chip on the left edge, 40 to 62, 7 deep");
  CHECK(told(box(141, 40, 150, 62)) == "chip on the right edge, 40 to 62, 9 deep");
  CHECK(told(box(141, 0, 150, 22)) == "chip at the lower right corner, 9 × 22");
  CHECK(told({{40, 100}, {50, 90}, {60, 100}}) == "missing on the top edge, 40 to 60, 10 deep at most");
  CHECK(told(box(40, 40, 50, 60)) == "chip from 40 to 50 across, 40 to 60 up");
  const auto facts = facts_of_shape(blank_of(rectangle(), {box(40, 93, 62, 100)}));
  REQUIRE(facts[1].place);
  CHECK(facts[1].place->at == Point{51, 93});
  CHECK(facts[1].place->inward == Point{0, -1});
}

TEST_CASE("things kept clear are told with their place and margin") {
  const KeptClear stamp{"old stamp", box(20, 30, 45, 42), 0, 3}, hole{"", {{15, 15}}, 3, 2};
  CHECK(texts(facts_of_shape(blank_of(rectangle(), {}, {stamp, hole}))) ==
        Lines{"corners square", "old stamp: 20 to 45 across, 30 to 42 up, margin 3",
              "kept clear: radius 3 about 15,15, margin 2"});
}

TEST_CASE("what a row says besides is told below, and only that") {
  BlankPicture piece = picture("S-1", 150, 100);
  CHECK(texts(facts_of_row(piece)).empty());
  piece.material = "slate";
  piece.thickness = 6.5;
  piece.factory_edges = {true, true, false, false};
  piece.used = "2041-1";
  piece.note = "from the barn";
  CHECK(texts(facts_of_row(piece)) == Lines{"factory edges: left, bottom", "used: 2041-1", "from the barn"});
  CHECK(material_of(piece) == "slate, 6.5 mm thick");
}

TEST_CASE("a piece with a hundred chips is told by the first of them, and the rest is counted") {
  std::vector<Polygon> chips;
  for (int i = 0; i < 60; ++i) chips.push_back(box(2 * i + 10, 97, 2 * i + 11, 100));
  const Lines lines = texts(facts_of_shape(blank_of(rectangle(), chips)));
  CHECK(lines.size() == shown_facts + 1);
  CHECK(lines.back() == "and 47 more");
}

TEST_CASE("pieces stand side by side at one scale, on as many pages as they need") {
  std::vector<BlankPicture> pieces;
  for (int i = 0; i < 13; ++i) pieces.push_back(picture("S-" + std::to_string(i), 200, 150));
  const auto pdf = write_blanks_pdf(pieces, "Mill", library());
  REQUIRE(pdf.ok());
  CHECK(pages_in(*pdf) == 2);  // three columns of four rows at 1:5
  CHECK(pages_in(*write_blanks_pdf({pieces[0]}, "Mill", library())) == 1);
  CHECK(*write_blanks_pdf(pieces, "Mill", library()) == *pdf);
  CHECK_FALSE(write_blanks_pdf({}, "Mill", library()).ok());
}

TEST_CASE("the largest and the smallest pieces have a scale too") {
  for (const double side : {1.0, 40.0, 10'000.0}) {
    INFO(side);
    CHECK(write_blanks_pdf({picture("A", side, side), picture("B", side, side / 2)}, "Mill", library()).ok());
  }
}

TEST_CASE("the SVG has every piece at true size on its own foot, under its id") {
  BlankPicture first = picture("A & B", 150, 100), second = picture("C", 60, 120);
  first.blank.kept_clear.push_back({"stamp", box(20, 30, 45, 42), 0, 2});
  second.blank.chips.push_back(box(0, 0, 10, 10));
  const std::string svg = write_blanks_svg({first, second});
  CHECK_THAT(svg, Contains("width=\"240mm\" height=\"140mm\" viewBox=\"0 0 240 140\""));
  CHECK_THAT(svg, Contains("<title>A &amp; B</title>\n      <path d=\"M10 130L160 130L160 30L10 30Z\"/>\n"
                           "      <path d=\"M30 100L55 100L55 88L30 88Z\" stroke-dasharray"));
  CHECK_THAT(svg, Contains("<g id=\"piece-C\">") && Contains("180 130") && Contains("170 120") && !Contains("170 130"));
  CHECK_THAT(write_blanks_svg({second, first}), Contains("viewBox=\"0 0 240 140\""));
  CHECK_THAT(svg, !Contains("<text") && !Contains("<use") && !Contains("style="));
}

TEST_CASE("the SVG begins a new row after ten pieces") {
  const std::vector<BlankPicture> pieces(11, picture("A", 50, 20));
  CHECK_THAT(write_blanks_svg(pieces), Contains("viewBox=\"0 0 610 70\""));
}

}  // namespace ordinatio::blanks_picture_test
