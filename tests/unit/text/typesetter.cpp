#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "text/text.h"

namespace ordinatio::typesetter_test {

namespace {

struct Case {
  const char* what;
  const char* text;
  const char* face;  // that the first letter is set in, when the design's face is the serif
};

// Names and words of our own making, one a script.
const Case scripts[] = {
    {"Latin", "Øyvind Ångström-Łęcka", "serif"},
    {"Greek", "Ευγενία Μυλωνά", "serif"},
    {"Cyrillic", "Мельничная запруда", "serif"},
    {"Armenian", "Ջրաղաց", "noto-armenian"},
    {"Georgian", "წისქვილი", "noto-georgian"},
    {"Arabic", "طاحونة", "noto-naskh"},
    {"Persian", "آسیاب می‌چرخد", "noto-naskh"},
    {"Hebrew", "טחנה", "noto-hebrew"},
    {"Thai", "กังหันน้ำ", "noto-thai"},
    {"Devanagari", "पनचक्की", "noto-devanagari"},
    {"Bengali", "জলচক্র", "noto-bengali"},
    {"Tamil", "நீர் ஆலை", "noto-tamil"},
    {"Japanese", "みずぐるま", "cjk-jp"},
    {"Korean", "물레방아", "cjk-kr"},
    {"Chinese", "水磨坊", "cjk-sc"},
};

TextStyle style_for(const std::string& text) { return {{"serif"}, "en", told_language({text})}; }

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  ShapedLine shape(const std::string& text) {
    auto line = typesetter.shape(text, style_for(text));
    if (!line.ok()) FAIL(describe(line.fault()));
    return std::move(*line);
  }
};

}  // namespace

TEST_CASE("every script is set in a face that draws it, with no .notdef") {
  Bench bench;
  for (const Case& c : scripts) {
    INFO(c.what);
    const ShapedLine line = bench.shape(c.text);
    REQUIRE_FALSE(line.glyphs.empty());
    CHECK_FALSE(line.ink.empty());
    for (const PlacedGlyph& glyph : line.glyphs) {
      CHECK(glyph.glyph != 0);
      CHECK(bench.typesetter.file(glyph.face).name == c.face);
    }
  }
}

TEST_CASE("a word with a letter that the design's face lacks comes from another, the rest stays") {
  FontLibrary library("none");
  Typesetter typesetter(library);
  const auto line = typesetter.shape("Ada Ōta", {{"sans"}, "en", ""});
  REQUIRE(line.ok());
  std::size_t own = 0;
  for (const PlacedGlyph& glyph : line->glyphs) own += typesetter.file(glyph.face).name == "sans" ? 1 : 0;
  CHECK(own == 4);
}

TEST_CASE("a space that glues two words is a space to a face that has none of its own") {
  FontLibrary library("none");
  Typesetter typesetter(library);
  // Cabin has neither U+00A0 nor U+202F, Vollkorn both.
  for (const char* face : {"sans", "serif"}) {
    const auto shape = [&](const char* text) {
      auto line = typesetter.shape(text, {{face}, "en", ""});
      if (!line.ok()) FAIL(describe(line.fault()));
      for (const PlacedGlyph& glyph : line->glyphs) {
        CHECK(glyph.glyph != 0);
        CHECK(typesetter.file(glyph.face).name == face);
      }
      return *std::move(line);
    };
    const ShapedLine spaced = shape("Ada Bo"), glued = shape("Ada\u00A0Bo"), narrow = shape("Ada\u202FBo");
    CHECK(glued.advance == Approx(spaced.advance).margin(1e-9));
    CHECK(narrow.advance > shape("AdaBo").advance + 0.02);
    if (face == std::string("sans")) CHECK(narrow.advance < spaced.advance - 0.02);
  }
}

TEST_CASE("what no face draws is told by name and place") {
  Bench bench;
  const auto line = bench.typesetter.shape("Bee \U0001F41D!", {{"serif"}, "en", ""}, 3);
  REQUIRE_FALSE(line.ok());
  CHECK(line.fault().what == "U+1F41D HONEYBEE cannot be engraved");
  CHECK(line.fault().where == "line 3, character 5");
}

TEST_CASE("a mark without a letter is held, not set on a dotted circle") {
  Bench bench;
  const std::string lone = "\xE0\xA4\xBE";  // DEVANAGARI VOWEL SIGN AA
  const auto line = bench.typesetter.shape(lone, style_for(lone));
  REQUIRE_FALSE(line.ok());
  CHECK(line.fault().why == "a mark stands without a letter that carries it");
}

TEST_CASE("directions mix as the bidirectional algorithm says") {
  Bench bench;
  const ShapedLine line = bench.shape("Mill טחנה 1874");
  // Left to right: the Latin word, then the number of the right-to-left run, then the Hebrew word.
  const auto x_of = [&](std::size_t byte) {
    for (const PlacedGlyph& glyph : line.glyphs) {
      if (glyph.cluster == byte) return glyph.origin.x;
    }
    FAIL("no glyph for byte " << byte);
    return 0.0;
  };
  const std::size_t hebrew = 5, number = 14;
  CHECK(x_of(0) < x_of(number));
  CHECK(x_of(number) < x_of(hebrew));
  CHECK(x_of(hebrew + 6) < x_of(hebrew));  // its last letter stands left of its first
}

TEST_CASE("joiners that mean something change the shape") {
  Bench bench;
  const auto glyphs = [&](const std::string& text) {
    std::vector<std::uint32_t> ids;
    for (const PlacedGlyph& glyph : bench.shape(text).glyphs) ids.push_back(glyph.glyph);
    return ids;
  };
  CHECK(glyphs("می\u200Cشود") != glyphs("میشود"));  // Persian: the letters part
  CHECK(glyphs("क्\u200Dष") != glyphs("क्ष"));        // Devanagari: half form in place of the ligature
}

TEST_CASE("Han characters take the forms of their language") {
  Bench bench;
  const auto face = [&](const std::string& text) {
    return bench.typesetter.file(bench.shape(text).glyphs.front().face).name;
  };
  CHECK(face("骨") == "cjk-sc");
  CHECK(face("骨のかたち") == "cjk-jp");
  CHECK(face("骨 물레") == "cjk-kr");
  CHECK(face("國學") == "cjk-tc");
  CHECK(face("国学") == "cjk-sc");
}

TEST_CASE("languages are told from letters") {
  CHECK(told_language({"Mill", "Müller"}) == "");
  CHECK(told_language({"水", "みず"}) == "ja");
  CHECK(told_language({"سلام"}) == "ar");
  CHECK(told_language({"پنجره"}) == "fa");
  CHECK(told_language({"لڑکی"}) == "ur");
}

TEST_CASE("outlines turn counter-clockwise, and those that overlap are known") {
  Bench bench;
  const ShapedLine line = bench.shape("oI");
  const GlyphOutline& o = bench.typesetter.outline(line.glyphs[0].face, line.glyphs[0].glyph);
  CHECK(area_of(o.path) > 0);
  CHECK(o.ink == bounds_of(o.path));
  CHECK_FALSE(o.overlaps);
}

TEST_CASE("a joined script is welded: no fill rule sees a hole or a seam") {
  FontLibrary library("none");
  Typesetter typesetter(library);
  const auto line = typesetter.shape("Millwheel", {{"script"}, "en", ""});
  REQUIRE(line.ok());
  Path ink;
  typesetter.append_ink(ink, *line, 20, {0, 0}, 0.01);
  CHECK_FALSE(contours_overlap(ink, 1e-3));
  double apart = 0;
  for (const PlacedGlyph& glyph : line->glyphs)
    apart += 400 * area_of(typesetter.outline(glyph.face, glyph.glyph).path);
  CHECK(area_of(ink) < apart * 0.999);
}

TEST_CASE("glyphs that overlap nothing keep their curves") {
  Bench bench;
  Path ink;
  bench.typesetter.append_ink(ink, bench.shape("AVOWED"), 10, {1, 2}, 0.01);
  const auto verbs = ink.verbs();
  CHECK(std::ranges::any_of(verbs, [](Path::Verb v) { return v == Path::Verb::quad || v == Path::Verb::cubic; }));
  CHECK(bounds_of(ink).left >= 1);
}

TEST_CASE("what was set before changes nothing") {
  Bench fresh, used;
  for (const Case& c : scripts) used.shape(c.text);
  Path a, b;
  fresh.typesetter.append_ink(a, fresh.shape("Wheel میل"), 10, {0, 0}, 0.01);
  used.typesetter.append_ink(b, used.shape("Wheel میل"), 10, {0, 0}, 0.01);
  CHECK(a == b);
}

TEST_CASE("a face that is not there is told with its neighbour") {
  const FontLibrary library("none");
  const auto face = library.find("serf");
  REQUIRE_FALSE(face.ok());
  CHECK(face.fault().mend.find("\"serif\"") != std::string::npos);
}

TEST_CASE("a file that is no font is told") {
  const auto folder = std::filesystem::temp_directory_path() / "ordinatio-fonts-test";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "broken.ttf") << "this is no font";
  const FontLibrary library(folder);
  Typesetter typesetter(library);
  const auto line = typesetter.shape("a", {{"broken.ttf"}, "en", ""});
  REQUIRE_FALSE(line.ok());
  CHECK(line.fault().what == "this is no font");
  std::filesystem::remove_all(folder);
}

}  // namespace ordinatio::typesetter_test
