#include "plan/day.h"

#include <catch2/catch.hpp>

namespace ordinatio::day_test {

TEST_CASE("days are read and written as ISO 8601 has them; what is no day of the calendar is none") {
  for (const char* text : {"2026-12-01", "2024-02-29", "1900-01-01", "2999-12-31"}) {
    const auto day = day_named(text);
    REQUIRE(day.has_value());
    CHECK(iso_text(*day) == text);
  }
  for (const char* text : {"", "2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26-12-01", "2026/12/01",
                           "2026-12-1", "2026-12-01 ", "1899-12-31", "3000-01-01", "2026-1a-01", "+026-12-01"}) {
    INFO(text);
    CHECK_FALSE(day_named(text).has_value());
  }
}

TEST_CASE("a day has its weekday, and a name for people") {
  CHECK(day_text(*day_named("2026-12-01")) == "Tue 1 Dec 2026");
  CHECK(day_text(*day_named("2024-02-29")) == "Thu 29 Feb 2024");
  CHECK(weekday_of(*day_named("2026-11-30")) == 0);
  CHECK(weekday_of(*day_named("2026-11-29")) == 6);
  CHECK(weekday_named("Mon") == 0u);
  CHECK(weekday_named("sunday") == 6u);
  CHECK_FALSE(weekday_named("Mo").has_value());
  CHECK_FALSE(weekday_named("").has_value());
}

}  // namespace ordinatio::day_test
