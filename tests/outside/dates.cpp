// Dates as they are taken, against ISO 8601's own examples; dates in words, against Unicode's CLDR 42, and against Babel 2.10
// (Debian: python3-babel), which carries CLDR 41.
#include <catch2/catch.hpp>
#include <cstdio>
#include <memory>
#include <sstream>

#include "design/date.h"

using namespace ordinatio;

namespace {

std::string long_date(const std::string& locale, const std::string& date) {
  const Result<std::string> line = date_line({"long", locale, "", ""}, date);
  if (!line.ok()) FAIL(describe(line.fault()));
  return *line;
}

/// Before the abbreviated "year" of bg, ru and uk CLDR 42 has a narrow no-break space (U+202F), CLDR 41 a blank.
std::string with_blanks(std::string date) {
  const std::string narrow = "\u202F";
  if (const std::size_t at = date.find(narrow); at != std::string::npos) date.replace(at, narrow.size(), " ");
  return date;
}

/// Locales that reckon by the Gregorian calendar and write 0-9: what both ICU and Babel do then is CLDR's alone.
constexpr const char* locales =
    "bg ca cs cy da de el en-GB en-US es et fi fr ga gl hr hu is it ja ko lt lv mk nl pl pt-BR pt-PT ro ru sk sl sq "
    "sv "
    "tr uk zh";

std::string told_by_babel() {
  const std::string command = std::string(PYTHON " " TEST_FOLDER "/outside/dates.py ") + locales;
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  REQUIRE(pipe != nullptr);
  std::string text;
  char block[4096];
  for (std::size_t size; (size = fread(block, 1, sizeof block, pipe.get())) > 0;) text.append(block, size);
  return text;
}

}  // namespace

TEST_CASE("of ISO 8601's ways to write 12 April 1985 the complete extended calendar date is taken") {
  // ISO 8601:2000, 5.2, illustrates all its ways by the 12th of April 1985.
  const Result<std::string> line = date_line({"iso", "", "", ""}, "1985-04-12");  // 5.2.1.1, extended format
  REQUIRE(line.ok());
  CHECK(*line == "1985-04-12");
  CHECK(long_date("en-GB", "1985-04-12") == "12 April 1985");
}

TEST_CASE("what ISO 8601 has besides is refused: a date mark is one day, written one way") {
  struct Clause {
    const char *what, *dates;
  };
  const Clause clauses[] = {
      {"5.2.1.1, basic format", "19850412"},
      {"5.2.1.2, less precise", "1985-04 1985 19"},
      {"5.2.1.3, truncated", "850412 85-04-12 -8504 -85-04 -85 --0412 --04-12 --04 ---12"},
      {"5.2.1.4, expanded", "+0019850412 +001985-04-12 +001985-04 +001985 +0019"},
      {"5.2.2, ordinal dates", "1985102 1985-102 85102 85-102 -102 +001985102 +001985-102"},
      {"5.2.3, week dates",
       "1985W155 1985-W15-5 1985W15 1985-W15 85W155 85-W15-5 85W15 85-W15 -5W155 -W155 -W15-5 -W-5"},
      {"5.4.1, date and time of day",
       "19850412T101530 1985-04-12T10:15:30 1985-04-12T10:15:30Z 1985-04-12T10:15:30+04:00"}};
  for (const Clause& clause : clauses) {
    std::istringstream dates(clause.dates);
    for (std::string date; dates >> date;) {
      INFO(clause.what << ": " << date);
      const Result<std::string> line = date_line({"iso", "", "", ""}, date);
      REQUIRE_FALSE(line.ok());
      CHECK(line.fault().mend == "Write it as year-month-day, such as 2026-11-25");
    }
  }
}

TEST_CASE("dates in words are those of CLDR 42") {
  // Unicode CLDR 42, which ICU 72 carries: dateFormats/long and months/format/wide. From memory, and each held against
  // Babel's CLDR 41 below; the narrow space of uk is new in 42.
  struct Case {
    const char *locale, *expected;
  };
  const Case cases[] = {
      {"en-GB", "25 November 2026"},  {"en-US", "November 25, 2026"},    {"de", "25. November 2026"},
      {"fr", "25 novembre 2026"},     {"es", "25 de noviembre de 2026"}, {"it", "25 novembre 2026"},
      {"nl", "25 november 2026"},     {"pl", "25 listopada 2026"},       {"cs", "25. listopadu 2026"},
      {"fi", "25. marraskuuta 2026"}, {"hu", "2026. november 25."},      {"pt-PT", "25 de novembro de 2026"},
      {"cy", "25 Tachwedd 2026"},     {"el", "25 Νοεμβρίου 2026"},       {"uk", "25 листопада 2026\u202Fр."},
      {"ja", "2026年11月25日"},       {"ko", "2026년 11월 25일"}};
  for (const Case& c : cases) {
    INFO(c.locale);
    CHECK(long_date(c.locale, "2026-11-25") == c.expected);
  }
}

TEST_CASE("dates in words are those of python3-babel, in every month") {
  std::istringstream lines(told_by_babel());
  std::size_t compared = 0;
  for (std::string locale, date, expected;
       std::getline(lines, locale, '\t') && std::getline(lines, date, '\t') && std::getline(lines, expected);) {
    INFO(locale << " " << date);
    CHECK(with_blanks(long_date(locale, date)) == expected);
    ++compared;
  }
  CHECK(compared == 37 * 12 * 3);
}

TEST_CASE("a date in the words of any of these locales can be engraved") {
  Design design;
  design.name = "stand";
  design.width = 100, design.height = 40;
  design.blank.outline = rectangle_outline(100, 40, Corner::square, 0);
  TextPart text;
  text.look.faces = {"sans"};
  design.texts.push_back(text);
  const FontLibrary library("none");
  Typesetter typesetter(library);
  std::istringstream tags(locales);
  for (std::string tag; tags >> tag;) {
    INFO(tag);
    design.texts[0].words = DatePart{"long", tag, "", ""};
    const auto laid = laid_as_drawn(design);
    REQUIRE(laid.ok());
    const Result<Artwork> artwork = compose(*laid, {{}, "2026-11-25"}, typesetter);
    INFO((artwork.ok() ? "" : describe(artwork.fault())));
    REQUIRE(artwork.ok());
    CHECK_FALSE(artwork->layers.empty());
  }
}
