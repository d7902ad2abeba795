#include <algorithm>
#include <catch2/catch.hpp>
#include <span>

#include "text/mark_places.h"
#include "text/text.h"

namespace ordinatio::marks_test {

namespace {

struct Workbench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  /// The faces that set the text, in its order, each once in a row.
  std::string faces_of(const std::string& text, const std::string& face) {
    auto line = typesetter.shape(text, {{face}, "", told_language({text})});
    if (!line.ok()) return line.fault().what + ": " + line.fault().why;
    std::ranges::sort(line->glyphs, {}, &PlacedGlyph::cluster);
    std::string names;
    for (std::size_t i = 0; i < line->glyphs.size(); ++i) {
      if (i > 0 && line->glyphs[i].face == line->glyphs[i - 1].face) continue;
      names += (names.empty() ? "" : " ") + typesetter.file(line->glyphs[i].face).name;
    }
    return names;
  }
};

struct Case {
  const char *text, *face, *faces;
};
void check(std::span<const Case> cases) {
  Workbench bench;
  for (const Case& c : cases) {
    INFO(c.text << " in " << c.face);
    CHECK(bench.faces_of(c.text, c.face) == c.faces);
  }
}

constexpr Bounds letter{0, 0, 0.6, 0.5};
SetMark mark_at(double left, double bottom, bool anchored) {
  return {{left, bottom, left + 0.2, bottom + 0.1}, letter, false, anchored};
}

}  // namespace

TEST_CASE("a mark that the design's face cannot place sends its whole word to a face that can") {
  const Case cases[] = {
      {"Ọlọ́run", "serif", "serif"},       {"Ọlọ́run", "slab", "noto-serif"},
      {"Žą́sa", "slab", "noto-serif"},     {"Ива́н", "slab", "noto-serif"},
      {"Ива́н", "condensed", "condensed"}, {"X̂", "condensed", "noto-sans"},
      {"Q̈", "variable", "noto-sans"},     {"a̶", "serif", "variable"},
      {"A̲n̲n̲a̲", "serif", "noto-sans"},     {"Anna Ọlọ́run 1893", "slab", "slab noto-serif slab"},
      {"Ị́fé", "variable", "noto-sans"},
  };
  check(cases);
}

TEST_CASE("a mark that no face can place is held, never engraved astray") {
  Workbench bench;
  CHECK(bench.faces_of("i\u1DC6", "serif") ==
        "“i\u1DC6” cannot be set in one face: no installed face draws all of its letters with each mark on its letter");
}

TEST_CASE("an i keeps no dot under an accent, unless the dot is typed") {
  Workbench bench;
  CHECK(bench.faces_of("ị́", "serif") == "noto-serif");  // the serif sets the accent on the dot
  CHECK(bench.faces_of("i\u0307\u0301", "serif") == "serif");
}

TEST_CASE("points and vowel signs of other scripts are their own face's affair") {
  Workbench bench;
  CHECK(bench.faces_of("שָׁלוֹם", "serif") == "noto-hebrew");
  CHECK(bench.faces_of("مُحَمَّد", "serif") == "noto-naskh");
  CHECK(bench.faces_of("กังหันน้ำ", "serif") == "noto-thai");
  CHECK(bench.faces_of("क्षितिज", "serif") == "noto-devanagari");
}

TEST_CASE("a mark without an anchor belongs where composed letters have it") {
  CHECK(is_in_place(MarkPlace::above, mark_at(0.2, 0.55, false)));
  CHECK_FALSE(is_in_place(MarkPlace::above, mark_at(0.2, 0.55 + most_gap, false)));
  CHECK_FALSE(is_in_place(MarkPlace::above, mark_at(0.2, 0.4, false)));
  CHECK_FALSE(is_in_place(MarkPlace::above, mark_at(0.2 + most_aside + 0.01, 0.55, false)));
  CHECK(is_in_place(MarkPlace::below, mark_at(0.2, -0.15, false)));
  CHECK_FALSE(is_in_place(MarkPlace::below, mark_at(0.2, 0.55, false)));
  CHECK_FALSE(is_in_place(MarkPlace::elsewhere, mark_at(0.2, 0.55, false)));
}

TEST_CASE("an anchored mark may stand aside, but not off its letter, nor on its ink") {
  CHECK(is_in_place(MarkPlace::above, mark_at(0.2 + 0.14, 0.55, true)));
  CHECK_FALSE(is_in_place(MarkPlace::above, mark_at(0.2 + 0.16, 0.55, true)));
  SetMark touching = mark_at(0.2, 0.45, true);
  CHECK(is_in_place(MarkPlace::above, touching));
  touching.touches = true;
  CHECK_FALSE(is_in_place(MarkPlace::above, touching));
  CHECK(is_in_place(MarkPlace::attached_below, {{0.2, -0.2, 0.4, 0.02}, letter, true, false}));
  CHECK_FALSE(is_in_place(MarkPlace::attached_below, {{0.2, -0.2, 0.4, -0.02}, letter, false, false}));
  CHECK(is_in_place(MarkPlace::through, {{0.1, 0.2, 0.5, 0.25}, letter, true, false}));
  CHECK_FALSE(is_in_place(MarkPlace::through, {{0.1, 0.6, 0.5, 0.65}, letter, true, false}));
}

TEST_CASE("one word is set in one face, and so is one number with its signs") {
  const Case cases[] = {
      {"Jiří Ōta", "sans", "noto-sans"},
      {"Jan Łukasz", "sans", "sans noto-sans"},
      {"1990–2020", "sans", "sans"},
      {"12/05/2024", "serif", "serif"},
      {"2024年5月12日", "serif", "cjk-sc"},
      {"Anna ♥ Ben", "serif", "serif noto-symbols2 serif"},
      {"♥Anna♥", "serif", "noto-symbols2 serif noto-symbols2"},
      {"みずぐるま 2024", "serif", "cjk-jp"},
      {"Anna田中", "serif", "serif cjk-sc"},
      {"€20", "serif", "serif"},
      {"חג'אזי", "serif", "noto-hebrew serif noto-hebrew"},

      {"№5", "sans", "noto-sans"},
      {"Ⱥⱥ-Anna", "serif", "noto-serif"},
  };
  check(cases);
}

TEST_CASE("a decorative face is stood in for by no face that the design does not name") {
  Workbench bench;
  const auto held = bench.typesetter.shape("Anna Łukasz", {{"script"}, "", ""}, 2);
  REQUIRE_FALSE(held.ok());
  CHECK(held.fault().what == "“Łukasz” cannot be set in script");
  CHECK(held.fault().where == "line 2, character 6");
  CHECK(held.fault().why.find("U+0141 LATIN CAPITAL LETTER L WITH STROKE") != std::string::npos);
  const auto named = bench.typesetter.shape("Anna Łukasz", {{"script", "noto-serif"}, "", ""});
  REQUIRE(named.ok());
  CHECK(bench.typesetter.file(named->glyphs.front().face).name == "script");
  CHECK(bench.typesetter.file(named->glyphs.back().face).name == "noto-serif");
  for (const char* face : {"script", "capitals", "stencil", "blackletter"}) {
    CHECK(bench.faces_of("山中", face).find("cannot be set in " + std::string(face)) != std::string::npos);
  }
}

TEST_CASE("the words that another face sets are told") {
  Workbench bench;
  const TextStyle style{{"sans"}, "", ""};
  const auto line = bench.typesetter.shape("Jan Łukasz 1874", style);
  REQUIRE(line.ok());
  const std::vector<StandIn> words = bench.typesetter.stand_ins(*line, style);
  REQUIRE(words.size() == 1);
  CHECK(words[0].word == "Łukasz");
  CHECK(words[0].face == "noto-sans");
}

TEST_CASE("figures stand in line with capitals unless the design wants them old-style") {
  Workbench bench;
  const auto ink = [&](const std::vector<std::string>& features, const std::string& face) {
    auto line = bench.typesetter.shape("1379", {{face}, "", "", {}, features});
    REQUIRE(line.ok());
    return line->ink;
  };
  CHECK(ink({}, "serif").bottom > -0.03);
  CHECK(ink({"onum"}, "serif").bottom < -0.1);
  CHECK(ink({"-lnum"}, "serif").bottom < -0.1);
  // The faces for engraving: all but the condensed one have them. The script's stand in line, a little low.
  for (const CatalogueFace& face : bench.library.catalogue()) {
    if (!face.is_for_engraving() || face.name == "condensed") continue;
    INFO(face.name);
    CHECK(ink({}, face.name).bottom > -0.09);
  }
}

TEST_CASE("a letter's marks are judged by the features of its own style, whatever was judged before") {
  const auto face_of = [](Workbench& bench, const TextStyle& style) {
    const auto line = bench.typesetter.shape("Ọlọ́run", style);
    return line.ok() ? bench.typesetter.file(line->glyphs.front().face).name : line.fault().what;
  };
  const TextStyle plain{{"serif"}, "", ""};
  TextStyle unplaced = plain;
  unplaced.features = {"-mark"};  // its marks stay where the pen leaves them
  Workbench fresh, used;
  const std::string alone = face_of(fresh, unplaced);
  CHECK(face_of(used, plain) == "serif");
  CHECK(alone != "serif");
  CHECK(face_of(used, unplaced) == alone);
  CHECK(face_of(fresh, plain) == "serif");
}

}  // namespace ordinatio::marks_test
