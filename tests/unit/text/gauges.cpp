#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "text/text.h"

namespace ordinatio::gauges_test {

namespace {

struct Setting {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  ShapedLine shape(const std::string& text, const std::string& face) {
    auto line = typesetter.shape(text, {{face}, "en", ""});
    if (!line.ok()) FAIL(describe(line.fault()));
    return std::move(*line);
  }
  LineGauges gauges(const std::string& text, const std::string& face) { return typesetter.gauges(shape(text, face)); }
  /// All ink of the line at once, as it is engraved.
  Polygons ink(const ShapedLine& line) {
    Polygons parts;
    for (const PlacedGlyph& glyph : line.glyphs) {
      const Path path = transformed(typesetter.outline(glyph.face, glyph.glyph).path, shift_by(glyph.origin));
      for (Polygon& polygon : polygons_of(path, 1e-4)) parts.push_back(std::move(polygon));
    }
    return weld(parts, 1e-6);
  }
};

constexpr double two_chords = 2e-4;  // em: each side of a stroke is flattened on its own

}  // namespace

TEST_CASE("a joined line is as thin as its ink measured all at once") {
  Setting setting;
  for (const char* name :
       {"Minna Vale", "Orla Quimby", "Tessaly Brook", "Wilhelmina Fjord", "Ruben Zoltan", "uu", "av"}) {
    INFO(name);
    const ShapedLine line = setting.shape(name, "script");
    const LineGauges told = setting.typesetter.gauges(line);
    const Thickness whole = thickness_of(setting.ink(line));
    CHECK(told.stroke.width == Approx(whole.strokes.front().width).margin(two_chords).epsilon(0.02));
    const bool same_place = std::ranges::any_of(whole.strokes, [&](const Gauge& gauge) {
      return length(gauge.at - told.stroke.at) < 0.02 && gauge.width < 1.1 * told.stroke.width;
    });
    CHECK(same_place);
  }
}

TEST_CASE("a letter's tail that its neighbour covers is not told as thin") {
  Setting setting;
  const LineGauges alone = setting.gauges("u", "script");
  const ShapedLine pair = setting.shape("uo", "script");
  REQUIRE(pair.glyphs.size() == 2);
  const LineGauges told = setting.typesetter.gauges(pair);
  // The tail of the u, thinnest of it when it stands alone, runs into the o.
  CHECK(alone.stroke.at.x > 0.8 * setting.shape("u", "script").ink.right);
  CHECK(length(told.stroke.at - alone.stroke.at) > 0.05);
  CHECK(told.stroke.width > alone.stroke.width);
}

TEST_CASE("space between letters is no gap, and a dot's distance from its stem is one") {
  Setting setting;
  CHECK(std::isinf(setting.gauges("ll", "sans").gap.width));
  const LineGauges dotted = setting.gauges("li", "sans");
  const Bounds dot_and_stem = setting.shape("li", "sans").ink;
  CHECK(dotted.gap.width == Approx(0.099).margin(1e-3));  // Cabin Medium: dot from y = .589, stem to .490
  CHECK(dotted.gap.at.x > dot_and_stem.width() / 2);
}

TEST_CASE("a line is no thinner and no thicker than its thinnest letter where letters stand apart") {
  Setting setting;
  double thinnest = 1e9, narrowest = 1e9;
  for (const char* letter : {"M", "a", "r", "e", "k"}) {
    thinnest = std::min(thinnest, setting.gauges(letter, "serif").stroke.width);
    narrowest = std::min(narrowest, setting.gauges(letter, "serif").gap.width);
  }
  const LineGauges line = setting.gauges("Marek", "serif");
  CHECK(line.stroke.width == thinnest);
  CHECK(line.gap.width == narrowest);
}

TEST_CASE("an empty line has no ink to measure") {
  Setting setting;
  CHECK(std::isinf(setting.gauges(" ", "serif").stroke.width));
  CHECK(std::isinf(setting.gauges("", "serif").gap.width));
}

TEST_CASE("a closed counter is told apart from a slit, and a slit where a spot fills it deeply") {
  Setting setting;
  const auto of = [&](const char* letter, double spot) {
    const auto line = setting.typesetter.shape(letter, {{"serif"}, "en", "zh-Hans"});
    return setting.typesetter.gauges(*line, spot);
  };
  constexpr double spot = 0.1 / 34;  // em: 0.1 mm where capitals are 25 mm tall
  // Strokes that were drawn to meet leave seams of some hundredths of a millimetre there: 0.002 em.
  for (const char* letter : {"党", "勉", "刷", "悦"}) {
    INFO(letter);
    CHECK(of(letter, spot).gap.width < spot);
    CHECK(of(letter, spot).counter.width > 0.07);
    CHECK(of(letter, 0.0005).slit.width > 1e6);  // a spot that goes in fills nothing
  }
  CHECK(of("勉", spot).slit.width == Approx(0.002).margin(2e-4));
  CHECK(of("勉", 0.05).slit.width < 0.05);
  // The eye of an e is closed, its mouth a slit no deeper than it is wide.
  const LineGauges e = setting.typesetter.gauges(setting.shape("e", "serif"), 0.12);
  CHECK(e.gap.width < e.counter.width);
  CHECK(std::isinf(e.slit.width));
  CHECK(std::isinf(setting.gauges("C", "sans").counter.width));
}

TEST_CASE("the slit that is told belongs to the letter that is told") {
  Setting setting;
  const auto line = setting.typesetter.shape("水勉", {{"serif"}, "en", "zh-Hans"});
  const LineGauges gauges = setting.typesetter.gauges(*line, 0.1 / 34);
  CHECK(gauges.slit_cluster == std::string("水").size());
  CHECK(gauges.slit.at.x > 1);
}

}  // namespace ordinatio::gauges_test
