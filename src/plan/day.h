// Days of the calendar, of no time zone.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace ordinatio::inline plan {

using Day = std::chrono::sys_days;

/// "2026-12-01", as ISO 8601 writes a day; nothing where it is none, or before the year 1900 or after 2999.
std::optional<Day> day_named(std::string_view text);
/// "2026-12-01"
std::string iso_text(Day day);
/// "Tue 1 Dec 2026"
std::string day_text(Day day);
/// 0 is Monday, 6 Sunday.
unsigned weekday_of(Day day);
/// "Mon", "Monday" in any case: 0; nothing for other words.
std::optional<unsigned> weekday_named(std::string_view word);

}  // namespace ordinatio::inline plan
