#include "text/word_clearance.h"

#include <catch2/catch.hpp>

namespace ordinatio::word_clearance_test {

namespace {

/// Points along the ink of the glyphs that stand for the bytes [begin, end) of the line.
Polygon points_between(const ShapedLine& line, Typesetter& typesetter, std::size_t begin, std::size_t end) {
  Polygon points;
  for (const PlacedGlyph& glyph : line.glyphs) {
    if (glyph.cluster < begin || glyph.cluster >= end) continue;
    for (const Polygon& polygon : polygons_of(typesetter.outline(glyph.face, glyph.glyph).path, 1e-4)) {
      for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point from = polygon[i], to = polygon[(i + 1) % polygon.size()];
        for (const double t : {0.0, 0.25, 0.5, 0.75}) points.push_back(from + t * (to - from) + glyph.origin);
      }
    }
  }
  return points;
}

double least_between(const Polygon& a, const Polygon& b) {
  double least = 1e300;
  for (const Point p : a) {
    for (const Point q : b) least = std::min(least, length(p - q));
  }
  return least;
}

/// Of each pair of neighbours among the words of a line.
std::vector<double> gaps_of(const ShapedLine& line, Typesetter& typesetter) {
  std::vector<double> gaps;
  Polygon before;
  for (std::size_t begin = 0; begin <= line.text.size();) {
    const std::size_t end = std::min(line.text.find(' ', begin), line.text.size());
    const Polygon word = points_between(line, typesetter, begin, end);
    if (!before.empty()) gaps.push_back(least_between(before, word));
    before = word;
    begin = end + 1;
  }
  return gaps;
}

}  // namespace

TEST_CASE("words of a hand that climbs are kept apart") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const std::string text : {"ہمارے پیارے", "اپنے پرانے گھر کے پیچھے", "دوستوں کے پیارے چچا", "ہمارے Anna پیارے"}) {
    INFO(text);
    const auto line = typesetter.shape(text, {{"noto-nastaliq"}, "ur", "ur"});
    REQUIRE(line.ok());
    for (const double gap : gaps_of(*line, typesetter)) CHECK(gap >= word_clearance - 0.01);
    Bounds ink;
    for (const PlacedGlyph& glyph : line->glyphs)
      ink.add(typesetter.outline(glyph.face, glyph.glyph).ink.shifted(glyph.origin));
    CHECK(line->ink.right == ink.right);
    CHECK(line->ink.left == ink.left);
  }
}

TEST_CASE("words that stand apart stay where they are") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  const auto line = typesetter.shape("باب الدار", {{"noto-naskh"}, "ar", "ar"});
  REQUIRE(line.ok());
  ShapedLine again = *line;
  const InkOf ink_of = [&](const PlacedGlyph& glyph) -> const GlyphOutline& {
    return typesetter.outline(glyph.face, glyph.glyph);
  };
  clear_words(again, ink_of);
  CHECK(again.advance == line->advance);
  for (std::size_t i = 0; i < line->glyphs.size(); ++i) CHECK(again.glyphs[i].origin == line->glyphs[i].origin);
}

}  // namespace ordinatio::word_clearance_test
