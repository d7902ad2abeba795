#include "text/optical_band.h"

#include <unicode/uscript.h>
#include <catch2/catch.hpp>

namespace ordinatio::optical_band_test {

namespace {

struct Reader {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  ShapedLine shaped(const std::string& text, const std::string& face = "serif", const std::string& language = "") {
    auto line = typesetter.shape(text, {{face}, language, language.empty() ? told_language({text}) : language});
    REQUIRE(line.ok());
    return *line;
  }
  OpticalBand band(const std::string& text, const std::string& face = "serif", const std::string& language = "") {
    return optical_band(shaped(text, face, language), typesetter);
  }
  const ScriptHeights& heights(const std::string& text, const std::string& language = "") {
    const PlacedGlyph glyph = shaped(text, "serif", language).glyphs.front();
    return typesetter.heights(glyph.face, glyph.script);
  }
  double top_of(const std::string& text) { return shaped(text).ink.top; }
};

}  // namespace

TEST_CASE("a script is measured on its own plain letters") {
  Reader reader;
  CHECK(reader.heights("Anna").top == reader.top_of("H"));
  CHECK(reader.heights("Anna").small_top == reader.top_of("x"));
  CHECK(reader.heights("Anna").descender == -reader.shaped("p").ink.bottom);
  CHECK(reader.heights("Мельница").top == reader.top_of("Н"));
  CHECK(reader.heights("שלום").top == reader.top_of("ם"));
  CHECK(reader.heights("มานี").top == reader.top_of("ก"));
  CHECK(reader.heights("गंगा").top == reader.top_of("क"));
  CHECK(reader.heights("水車").top == reader.top_of("國"));
  CHECK_FALSE(reader.heights("ᠮᠣᠩᠭᠣᠯ").measured);
}

TEST_CASE("Nastaliq climbs, and Naskh does not") {
  Reader reader;
  CHECK(reader.heights("نور", "ur").climbs);
  CHECK_FALSE(reader.heights("نور", "ar").climbs);
  CHECK(reader.band("نور", "serif", "ur").climbs);
  CHECK_FALSE(reader.band("نور", "serif", "ar").climbs);
  CHECK_FALSE(reader.band("Anna").climbs);
}

TEST_CASE("capitals are even from the baseline to their height; accents and tails are passed over") {
  Reader reader;
  const double cap = reader.top_of("H");
  for (const char* line : {"MILL", "ÉPÉE", "QUAY"}) {
    const OpticalBand band = reader.band(line);
    CHECK(band.top == cap);
    CHECK(band.bottom == 0);
    CHECK(band.centre == cap / 2);
    CHECK_FALSE(band.small_letters);
  }
}

TEST_CASE(
    "a line of capitals and small letters has its top between their heights, and its foot where two letters hang") {
  Reader reader;
  const ScriptHeights latin = reader.heights("Anna");
  const double between = (latin.top + latin.small_top) / 2;
  CHECK(reader.band("Anna").top == between);
  CHECK(reader.band("Anna").bottom == 0);
  CHECK(reader.band("Annay").bottom == 0);  // one alone is passed over
  CHECK(reader.band("Gypsy").bottom == -descender_share * latin.descender);
  CHECK(reader.band("xaem").top == Approx(latin.small_top));
  CHECK(reader.band("Anna").small_letters);
  CHECK(reader.band("Anna").centre < between / 2 + 0.02);
}

TEST_CASE("old-style figures rise and hang like small letters, and are none") {
  Reader reader;
  const auto figures = [&](const char* feature) {
    auto line = reader.typesetter.shape("1874", {{"serif"}, "en", "", {}, {feature}});
    REQUIRE(line.ok());
    return optical_band(*line, reader.typesetter);
  };
  CHECK(figures("onum").bottom < 0);
  CHECK(figures("lnum").bottom == 0);
  CHECK(figures("lnum").top == reader.top_of("H"));
  CHECK_FALSE(figures("onum").small_letters);
}

TEST_CASE("small letters that a face draws as capitals are capitals") {
  Reader reader;
  const OpticalBand band = reader.band("Anna", "capitals");
  CHECK_FALSE(band.small_letters);
  CHECK(band.bottom == 0);
  CHECK(band.top == reader.shaped("H", "capitals").ink.top);
}

TEST_CASE("scripts without capitals keep the band of a plain letter, whatever strokes rise from it") {
  Reader reader;
  CHECK(reader.band("שלום").top == reader.band("שרה").top);
  CHECK(reader.band("มานี").top == reader.top_of("ก"));
  CHECK(reader.band("水车", "serif", "zh-Hans").centre == Approx(reader.band("水车", "serif", "zh-Hans").middle()));
  const OpticalBand urdu = reader.band("نور", "serif", "ur");
  CHECK(urdu.middle() == Approx(urdu.centre));
}

TEST_CASE("vowel signs above a headline count by half of what they rise, where two letters have them") {
  Reader reader;
  const double headline = reader.top_of("ক"), sign = reader.top_of("কী");
  CHECK(reader.band("কনক").top == headline);
  CHECK(reader.band("কীনক").top == headline);  // one alone is passed over
  CHECK(reader.band("কীনকী").top == Approx(headline + reach_share * (sign - headline)));
  CHECK(reader.band("কুনকু").bottom < reader.band("কনক").bottom);
  CHECK(reader.band("কনক").bottom == reader.shaped("ক").ink.bottom);
}

TEST_CASE("Arabic moves from its alef's band towards its ink, half of the way") {
  Reader reader;
  const OpticalBand band = reader.band("سلمى", "serif", "ar");
  const double alef = reader.shaped("ا", "serif", "ar").ink.top / 2;
  CHECK(band.middle() == Approx((alef + band.centre) / 2));
  CHECK(band.middle() < alef);
}

TEST_CASE("letters of two scripts in one line count by their ink") {
  Reader reader;
  const OpticalBand latin = reader.band("MILL"), hebrew = reader.band("שרה"), both = reader.band("MILL שרה");
  CHECK(both.ink == Approx(latin.ink + hebrew.ink));
  CHECK(both.top == Approx((latin.ink * latin.top + hebrew.ink * hebrew.top) / both.ink));
  CHECK(both.centre == Approx((latin.ink * latin.centre + hebrew.ink * hebrew.centre) / both.ink));
}

TEST_CASE("signs alone are wanted where their ink is, and no ink has no band") {
  Reader reader;
  const ShapedLine point = reader.shaped(".");
  CHECK(optical_band(point, reader.typesetter).middle() == Approx(point.ink.centre().y));
  CHECK(reader.band("").ink == 0);
  CHECK(reader.band(" ").top == 0);
}

}  // namespace ordinatio::optical_band_test
