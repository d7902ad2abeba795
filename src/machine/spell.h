// In: times, speeds and their like as people write them. Out: seconds and millimetres, and back. Never: guesses a unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ordinatio::inline machine {

/// "1 h 35 min", "12 min", "under a minute": to the minute, up where it is half.
std::string time_text(double seconds);

/// mm/s of "300 mm/s" or "18000 mm/min". Nothing: no number, another unit, none.
std::optional<double> speed_in(std::string_view text);
/// mm/s² of "3000 mm/s2", also written "mm/s²".
std::optional<double> acceleration_in(std::string_view text);
/// Seconds of "1h35m", "1 h 35 min", "95 min", "40 s", "20 ms". Nothing: a number without its unit, a unit twice or before
/// a larger one.
std::optional<double> time_in(std::string_view text);

/// So many days after a day of the calendar, both as ISO 8601 writes them. Nothing: it is none; after the year 9999.
std::optional<std::string> day_after(std::string_view iso_day, int days);

}  // namespace ordinatio::inline machine
