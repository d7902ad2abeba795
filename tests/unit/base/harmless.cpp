#include "base/harmless.h"

#include <catch2/catch.hpp>
#include <cstdlib>

#include "base/base.h"
#include "base/local_time.h"

namespace ordinatio::harmless_test {

TEST_CASE("what steers a terminal or the direction of reading is shown as a picture") {
  struct Case {
    std::string text, shown;
  };
  const Case cases[] = {
      {"", ""},
      {"Ænima, שלום, 漢字 ½", "Ænima, שלום, 漢字 ½"},
      {"\x1B[31mred\x1B[0m", "␛[31mred␛[0m"},
      {"a\x07z", "a␇z"},
      {std::string("a\0z", 3), "a␀z"},
      {"a\x7Fz", "a␡z"},
      {"a\u009Bz", "a‹U+009B›z"},  // a terminal may take it for escape and [
      {"a\u202Ez", "a‹U+202E›z"},
      {"a\u2066b\u2069", "a‹U+2066›b‹U+2069›"},
      {"a\u200Fz", "a‹U+200F›z"},
      {"a\u061Cz", "a‹U+061C›z"},
      {"a\u2028z", "a‹U+2028›z"},
      {"a\nb\tc\rd", "a␊b␉c␍d"},
      {"a\xFFz", "a\uFFFDz"},
      {"\xE2\x80", "\uFFFD\uFFFD"},
      {"\xED\xA0\x80", "\uFFFD\uFFFD\uFFFD"},  // a surrogate
      {"\xC0\x9B", "\uFFFD\uFFFD"},            // escape, overlong
  };
  for (const auto& [text, shown] : cases) {
    INFO(shown);
    CHECK(harmless(text) == shown);
    CHECK(harmless(shown) == shown);
    CHECK_FALSE(steers(harmless(text)));
  }
}

TEST_CASE("line ends and tabs may stay, but nothing that writes over a line") {
  CHECK(harmless("a\r\nb\nc\td", true) == "a\r\nb\nc\td");
  CHECK(harmless("paid\rheld", true) == "paid␍held");
  CHECK(steers("a\nb"));
  CHECK_FALSE(steers("a\nb", false));
  CHECK(steers("a\x1B", false));
  CHECK_FALSE(steers("a\u200Dz"));  // joiners change letters, and steer nothing
}

TEST_CASE("no message of a Fault holds what steers") {
  CHECK(describe({"the id \x1B]0;x\x07 is odd", "a\nb\u202E.csv", "why\x9C", "Mend\u2067it"}) ==
        "a␊b‹U+202E›.csv: the id ␛]0;x␇ is odd: why\uFFFD. Mend‹U+2067›it.");
}

TEST_CASE("JSON has direction marks and the last controls as escapes, and reads back the same") {
  CHECK(with_escaped_marks("{\"a\":\"x\u202Ey\u0085é\x7F\"}") == "{\"a\":\"x\\u202Ey\\u0085é\\u007F\"}");
}

TEST_CASE("a time is told by the clock on the wall, with its zone") {
  const char* const before = std::getenv("TZ");
  const std::string kept = before == nullptr ? "" : before;
  struct Case {
    const char *zone, *utc, *local;
  };
  // POSIX zones need no data of zones: two hours ahead of UTC in summer, one in winter.
  const Case cases[] = {{"UTC0", "2026-11-25T08:00:00Z", "2026-11-25 08:00 UTC"},
                        {"CET-1CEST,M3.5.0,M10.5.0/3", "2026-11-25T08:00:00Z", "2026-11-25 09:00 CET"},
                        {"CET-1CEST,M3.5.0,M10.5.0/3", "2026-07-01T23:30:00Z", "2026-07-02 01:30 CEST"},
                        {"EST5", "2026-01-01T03:05:59Z", "2025-12-31 22:05 EST"},
                        {"<+0545>-5:45", "2026-11-25T08:00:00Z", "2026-11-25 13:45 UTC+0545"},
                        {"UTC0", "yesterday", "yesterday"},
                        {"UTC0", "2026-11-25 08:00:00Z", "2026-11-25 08:00:00Z"}};
  for (const auto& [zone, utc, local] : cases) {
    INFO(zone << " " << utc);
    ::setenv("TZ", zone, 1);
    CHECK(local_time(utc) == local);
  }
  before == nullptr ? ::unsetenv("TZ") : ::setenv("TZ", kept.c_str(), 1);
}

TEST_CASE("what is called otherwise elsewhere finds the word that is meant here") {
  const std::string_view corners[] = {"lower-left", "lower-right", "upper-left", "upper-right"};
  for (const char* said : {"top-left", "Top Left", "top_left", "left-top", "tl", "upper left"}) {
    INFO(said);
    CHECK(nearest_word(said, corners) == "upper-left");
  }
  CHECK(nearest_word("bottom-right", corners) == "lower-right");
  const std::string_view keys[] = {"font", "width", "line_breaks"};
  CHECK(nearest_word("typeface", keys) == "font");
  CHECK(nearest_word("wrap", keys) == "line_breaks");
  CHECK_FALSE(nearest_word("top-left", keys));
}

}  // namespace ordinatio::harmless_test
