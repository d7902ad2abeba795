// Pictures of the stock as others read them: qpdf 11.3 (Debian: qpdf), pdfinfo and pdftotext of poppler 22.12 (Debian:
// poppler-utils), and rsvg-convert of librsvg 2.54 (Debian: librsvg2-bin).
#include <catch2/catch.hpp>

#include "composed_sheet.h"
#include "paper/paper.h"
#include "picture.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;
using Catch::Matchers::Contains;

namespace {

std::vector<BlankPicture> stock() {
  std::vector<BlankPicture> pieces;
  for (int i = 0; i < 20; ++i) {
    BlankPicture piece;
    piece.blank = {"S-" + std::to_string(100 + i), rectangle_outline(200, 150 - i, Corner::cut, 8), {}, {}};
    pieces.push_back(piece);
  }
  pieces[3].blank.chips = {{{40, 140}, {62, 140}, {62, 147}, {40, 147}}};
  pieces[4].blank.kept_clear = {{"old stamp", {{20, 30}, {45, 30}, {45, 42}, {20, 42}}, 0, 2}};
  pieces[5].note = "von Zoë, 石板";
  pieces[6].used = "2041-1";
  return pieces;
}

}  // namespace

TEST_CASE("the contact sheet is sound for qpdf, A4 for pdfinfo, and every piece is found as text") {
  const Scratch scratch;
  const auto pdf = write_blanks_pdf(stock(), "Mill", fonts());
  REQUIRE(pdf.ok());
  const auto path = scratch / "blanks.pdf";
  save(path, *pdf);
  CHECK_THAT(output_of("qpdf --check " + quoted(path)), Contains("No syntax or stream encoding errors found"));
  const std::string facts = output_of("pdfinfo " + quoted(path));
  CHECK_THAT(facts, Contains("595.276 x 841.89 pts (A4)"));
  CHECK(numbers_after(facts, "Pages:", 1).at(0) == 2);
  const std::string text = output_of("pdftotext -layout " + quoted(path) + " -");
  for (const BlankPicture& piece : stock()) CHECK_THAT(text, Contains(piece.blank.id));
  for (const char* words : {"Scale 1:5", "200", "147", "corners cut 8 × 8", "40 to 62, 7 deep",
                            "old stamp: 20 to 45 across", "von Zoë, 石板", "used: 2041-1"}) {
    CHECK_THAT(text, Contains(words));
  }
}

TEST_CASE("the drawing of the stock is drawn by librsvg at its true size") {
  const Scratch scratch;
  const auto path = scratch / "blanks.svg";
  save(path, write_blanks_svg(stock()));
  const auto png = scratch / "blanks.png";
  output_of("rsvg-convert --dpi-x 96 --dpi-y 96 -b white -o " + quoted(png) + " " + quoted(path));
  const golden::Picture picture = golden::read_png(png);
  // Ten pieces of 200 mm and eleven gaps of 10 mm; two rows, the highest 150 and 140 mm.
  CHECK(picture.width == Approx(2110 / mm_per_css_px).margin(1));
  CHECK(picture.height == Approx(320 / mm_per_css_px).margin(1));
  Bounds ink;
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      if ((picture.at(x, y) & 0xFF) < 0xC0) ink.add(Point{x * mm_per_css_px, y * mm_per_css_px});
    }
  }
  CHECK(ink.left == Approx(10).margin(0.5));
  CHECK(ink.right == Approx(2100).margin(0.5));
  CHECK(ink.bottom == Approx(10).margin(0.5));  // of the picture, whose y runs down
  CHECK(ink.top == Approx(310).margin(0.5));
}
