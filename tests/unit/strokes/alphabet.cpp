#include <unicode/localpointer.h>
#include <unicode/locid.h>
#include <unicode/uchar.h>
#include <unicode/ulocdata.h>
#include <unicode/uniset.h>
#include <unicode/usetiter.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "strokes/alphabet.h"

namespace ordinatio::alphabet_test {
namespace {

const StrokeAlphabet& upright() { return *stroke_face("stroke"); }
const StrokeAlphabet& slanted() { return *stroke_face("stroke-slanted"); }

Bounds ink_of(char32_t letter, const StrokeAlphabet& alphabet = upright()) {
  const StrokeGlyph* glyph = alphabet.glyph(letter);
  REQUIRE(glyph != nullptr);
  return bounds_of(glyph->path);
}

Path words(const char* text, double capitals = 10) {
  const Result<Path> path = words_in_strokes(upright(), text, capitals);
  if (!path.ok()) FAIL(describe(path.fault()));
  return *path;
}

// Languages of Europe that are written in Latin letters, as CLDR names them.
constexpr const char* languages[] = {
    "sq", "az", "eu", "bs", "br", "ca", "hr",  "cs",  "da", "nl", "en", "eo",  "et",  "fo",  "fi",      "fr",     "fy",
    "gl", "de", "hu", "is", "ga", "it", "lv",  "lt",  "lb", "mt", "nb", "nn",  "pl",  "pt",  "ro",      "rm",     "gd",
    "sk", "sl", "es", "sv", "tr", "cy", "fur", "gsw", "gv", "kw", "se", "smn", "hsb", "dsb", "sr_Latn", "uz_Latn"};

}  // namespace

TEST_CASE("the alphabet has ISO 3098's proportions of lettering B (from memory), on the middle of the line") {
  const double h = stroke_capitals;
  for (const char32_t capital : U"ABCDEFGHIJKLMNOPRSTUVWXYZ0123456789") {
    if (capital == 0) continue;
    INFO(std::string(1, static_cast<char>(capital)));
    CHECK(ink_of(capital).bottom == Approx(0).margin(0.5));
    CHECK(ink_of(capital).top == Approx(h).margin(0.5));
  }
  for (const char32_t small : U"acegmnopqrsuvwxyz") {
    if (small != 0) CHECK(ink_of(small).top == Approx(0.7 * h).margin(0.5));
  }
  for (const char32_t tall : U"bdhkl") {
    if (tall != 0) CHECK(ink_of(tall).top == Approx(h).margin(0.5));
  }
  for (const char32_t hanging : U"gjpqy") {
    if (hanging != 0) CHECK(ink_of(hanging).bottom == Approx(-0.3 * h).margin(0.5));
  }
  CHECK(stroke_line == Approx(h / 10));
  // Edges of uprights are 2/10 h apart: their middles 3/10.
  const Bounds both = bounds_of(words("HH", h));
  CHECK(both.width() - 2 * ink_of(U'H').width() == Approx(0.3 * h));
  // Words are 6/10 h apart between edges, so 7/10 between middles.
  CHECK(bounds_of(words("H H", h)).width() - 2 * ink_of(U'H').width() == Approx(0.7 * h).margin(2));
}

TEST_CASE("the slanted form leans to 75° and is the same drawing") {
  const Bounds stem = ink_of(U'I', slanted());
  CHECK(std::atan2(stem.height(), stem.width()) * 180 / std::numbers::pi == Approx(75));
  for (const char32_t letter : {U'g', U'Ś', U'ø'}) {
    CHECK(slanted().glyph(letter)->advance == upright().glyph(letter)->advance);
    const Transform back{1, 0, -std::tan(15 * std::numbers::pi / 180), 1, 0, 0};
    const Bounds straight = bounds_of(transformed(slanted().glyph(letter)->path, back));
    CHECK(straight.left == Approx(ink_of(letter).left).margin(1e-9));
    CHECK(straight.top == Approx(ink_of(letter).top).margin(1e-9));
  }
}

TEST_CASE("every letter that CLDR lists for a European language in Latin letters is drawn, small and capital") {
  for (const char* language : languages) {
    UErrorCode status = U_ZERO_ERROR;
    const icu::LocalULocaleDataPointer data(ulocdata_open(language, &status));
    const icu::LocalUSetPointer letters(
        ulocdata_getExemplarSet(data.getAlias(), nullptr, USET_ADD_CASE_MAPPINGS, ULOCDATA_ES_STANDARD, &status));
    REQUIRE(U_SUCCESS(status));
    icu::UnicodeSetIterator at(*icu::UnicodeSet::fromUSet(letters.getAlias()));
    while (at.next()) {
      const icu::UnicodeString& text = at.getString();  // more than one character: a digraph, or a letter and its mark
      for (std::int32_t i = 0; i < text.length(); i = text.moveIndex32(i, 1)) {
        const UChar32 c = text.char32At(i);
        // Turkish's case mapping gives i̇; German's titlecase ligatures are typed as letters.
        if (u_charType(c) == U_NON_SPACING_MARK || u_charType(c) == U_TITLECASE_LETTER) continue;
        INFO(language << ": U+" << std::hex << c);
        CHECK(upright().glyph(static_cast<char32_t>(c)) != nullptr);
      }
    }
  }
}

TEST_CASE("figures, punctuation and the usual currencies are drawn, and nothing that is not known") {
  for (const char32_t sign : U"0123456789.,:;!?()[]{}'\"‘’“”„‚«»‹›-–—…·&@#%*+=<>/\\|§¶†°×÷±½¼¾€£$¥¢₺©®™№") {
    INFO(std::hex << static_cast<std::uint32_t>(sign));
    if (sign != 0) CHECK(upright().glyph(sign) != nullptr);
  }
  for (const char32_t other : {U'Ж', U'λ', U'あ', U'\x1', U'\xFFFD'}) CHECK(upright().glyph(other) == nullptr);
  const Result<Path> path = words_in_strokes(upright(), "Mill Ж", 5);
  REQUIRE_FALSE(path.ok());
  CHECK(describe(path.fault()).find("CYRILLIC CAPITAL LETTER ZHE") != std::string::npos);
  CHECK(path.fault().where == "character 6");
}

TEST_CASE("marks sit off their letters, above in the middle, and the dot of an i gives way to them") {
  for (const char32_t letter : U"ÁÀÂÃÄĄČĎÉĚĞĪŁŃÖŐŘŠŤŮŽáčěğíñöőřšůž") {
    if (letter != 0) REQUIRE(upright().glyph(letter) != nullptr);
  }
  const Bounds plain = ink_of(U'o'), marked = ink_of(U'ö');
  CHECK(marked.top > plain.top + stroke_line);
  CHECK(marked.centre().x == Approx(plain.centre().x));
  CHECK(upright().glyph(U'í')->path.verbs().size() == upright().glyph(U'ı')->path.verbs().size() + 2);
  // A comma below for Latvian, above its g, and beside the tall letters of Czech and Slovak.
  CHECK(ink_of(U'ķ').bottom < -stroke_line);
  CHECK(ink_of(U'ģ').top > ink_of(U'g').top);
  CHECK(ink_of(U'ď').top == Approx(ink_of(U'd').top).margin(0.5));
  CHECK(ink_of(U'ď').right > ink_of(U'd').right + stroke_line);
}

TEST_CASE("letters under one another's arms stand nearer, accents or not") {
  CHECK(bounds_of(words("TA")).width() < bounds_of(words("HA")).width());
  CHECK(upright().kerning(U'T', U'ó') == upright().kerning(U'T', U'o'));
  CHECK(upright().kerning(U'H', U'H') == 0);
}

TEST_CASE("no stroke is closed, and none goes nowhere") {
  for (char32_t c = 0x21; c < 0x250; ++c) {
    const StrokeGlyph* glyph = upright().glyph(c);
    if (glyph == nullptr) continue;
    INFO(std::hex << static_cast<std::uint32_t>(c));
    for (const Polyline& line : flatten(glyph->path, 0.1)) {
      CHECK_FALSE(line.closed);
      CHECK(line.points.size() > 1);
    }
  }
}

}  // namespace ordinatio::alphabet_test
