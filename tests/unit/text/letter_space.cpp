#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>

#include "text/text.h"

namespace ordinatio::letter_space_test {

namespace {

namespace fs = std::filesystem;

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  ShapedLine shape(const std::string& text, double letter_spacing) {
    auto line = typesetter.shape(text, {{"serif"}, "en", told_language({text}), {}, {}, letter_spacing});
    if (!line.ok()) FAIL(describe(line.fault()));
    return std::move(*line);
  }
  /// How often the spacing of 1 em went in.
  double spaces_in(const std::string& text) { return shape(text, 1).advance - shape(text, 0).advance; }
};

}  // namespace

TEST_CASE("letters that run into one another are not spaced, and others are") {
  Bench bench;
  struct Pair {
    const char *script, *letters;  // neighbours in a word
    bool joins;
  };
  const Pair pairs[] = {
      {"Devanagari", "कन", true}, {"Bengali", "কন", true},   {"Gurmukhi", "ਕਨ", true},   {"Arabic", "بن", true},
      {"Syriac", "ܒܢ", true},     {"N'Ko", "ߓߊ", true},      {"Mongolian", "ᠮᠣᠩ", true}, {"Adlam", "𞤀𞤁", true},
      {"Ogham", "ᚁᚂ", true},      {"Gujarati", "કન", false}, {"Oriya", "କନ", false},     {"Tamil", "கன", false},
      {"Telugu", "వవ", false},    {"Kannada", "ಕನ", false},  {"Malayalam", "കന", false}, {"Sinhala", "කන", false},
      {"Thai", "กน", false},      {"Lao", "ກນ", false},      {"Khmer", "កន", false},     {"Burmese", "ကန", false},
      {"Tibetan", "ཀན", false},   {"Javanese", "ꦏꦤ", false}, {"Balinese", "ᬓᬦ", false},  {"Hebrew", "בנ", false},
      {"Thaana", "ބނ", false},    {"Ethiopic", "ቀነ", false}, {"Armenian", "բն", false},  {"Georgian", "ბნ", false},
      {"Cherokee", "ᎠᎡ", false},  {"Canadian", "ᐊᐃ", false}, {"Runic", "ᚠᚢ", false},     {"Tifinagh", "ⴰⴱ", false},
      {"Latin", "nu", false},     {"Greek", "νυ", false},    {"Cyrillic", "ни", false},  {"Han", "水車", false},
      {"Hangul", "물레", false},
  };
  for (const Pair& pair : pairs) {
    INFO(pair.script);
    const ShapedLine line = bench.shape(pair.letters, 0);
    REQUIRE(line.glyphs.size() >= 2);
    const auto ink = [&](const PlacedGlyph& glyph) {
      return bench.typesetter.outline(glyph.face, glyph.glyph).ink.shifted(glyph.origin);
    };
    // What the face draws says the same as the list.
    CHECK((ink(line.glyphs[1]).left - ink(line.glyphs[0]).right < 1e-3) == pair.joins);
    CHECK(bench.spaces_in(pair.letters) == Approx(pair.joins ? 0 : 1).margin(1e-9));
  }
}

TEST_CASE("spacing stands between words and letters that take it, never inside a conjunct or a stack") {
  Bench bench;
  const std::pair<const char*, int> cases[] = {
      {"Ada", 2},
      {"Ada Bo", 5},
      {"पनचक्की Ada", 2},  // none in the headline, nor after the space that goes with it
      {"ક્ક", 0},          // Gujarati: a half form and its letter
      {"કક્કક", 2},
      {"ស្ត្រី", 0},           // Khmer: what stands below is part of its letter
      {"မန္တလေး", 2},        // Burmese: the stack counts as one
      {"மக்கள்", 3},          // Tamil shows its virama: each letter stands alone
      {"කක්ක", 2},           // so does Sinhala
      {"ක්‍ක", 0},  // where no joiner follows
      {"กังหัน", 3},
      {"ab\u200E\u200Fcd", 3},  // marks of direction take none for themselves
      {"\u200Eab\u200E", 1},
      {"אב", 1},
  };
  for (const auto& [text, count] : cases) {
    INFO(text);
    CHECK(bench.spaces_in(text) == Approx(count).margin(1e-9));
  }
}

TEST_CASE("a joined hand of the workshop's own is not spaced either") {
  const fs::path folder = fs::temp_directory_path() / ("ordinatio-joined-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  const FontLibrary installed("none");
  fs::copy_file(installed.find("script")->path, folder / "mill-hand.otf", fs::copy_options::overwrite_existing);
  fs::copy_file(installed.find("serif")->path, folder / "mill-serif.ttf", fs::copy_options::overwrite_existing);
  const FontLibrary library(folder);
  Typesetter typesetter(library);
  const auto fault = typesetter.check_style({{"mill-hand"}, "en", "", {}, {}, 0.1});
  REQUIRE(fault);
  CHECK(fault->what == "letters cannot be spaced");
  CHECK_FALSE(typesetter.check_style({{"mill-hand"}, "en", "", {}, {}, 0}));
  CHECK_FALSE(typesetter.check_style({{"mill-serif"}, "en", "", {}, {}, 0.1}));
  fs::remove_all(folder);
}

}  // namespace ordinatio::letter_space_test
