#include "design/date.h"

#include <catch2/catch.hpp>

namespace ordinatio::date_test {

TEST_CASE("dates are those of the calendar, and of the locale's long form") {
  struct Case {
    const char *form, *locale, *date, *expected;
  };
  // Long forms: Unicode CLDR 42 (ICU 72), dateFormats/long of each locale.
  const Case cases[] = {
      {"iso", "", "2026-11-25", "2026-11-25"},
      {"long", "en-GB", "2026-11-25", "25 November 2026"},
      {"long", "en-US", "2026-11-25", "November 25, 2026"},
      {"long", "de-DE", "2026-03-01", "1. März 2026"},
      {"long", "fr-FR", "2024-02-29", "29 février 2024"},
      {"long", "ja-JP", "2026-11-25", "2026年11月25日"},
  };
  for (const Case& c : cases) {
    const auto line = date_line({c.form, c.locale, "", ""}, c.date);
    REQUIRE(line.ok());
    CHECK(*line == c.expected);
  }
}

TEST_CASE("what is no day is told") {
  // ISO 8601 calendar dates: 2100 is no leap year, 2000 was one.
  for (const char* date : {"", "2026-13-01", "2026-02-29", "2100-02-29", "26-11-25", "2026/11/25", "2026-11-25x"}) {
    const auto line = date_line({"iso", "", "", ""}, date);
    INFO(date);
    REQUIRE_FALSE(line.ok());
    CHECK(line.fault().what == "\"" + std::string(date) + "\" is no date");
  }
  CHECK(date_line({"iso", "", "", ""}, "2000-02-29").ok());
}

}  // namespace ordinatio::date_test
