// In: words of a station in shop.toml: "12 an hour", "24 a load, 9 hours a load", "4 %", "1 belt for 40 pieces", "Mon-Fri".
// Out: what they mean, or nothing. Never: knows a file. Of this folder alone.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "plan/plan.h"

namespace ordinatio::inline workshop {

inline constexpr double most_an_hour = 100'000;  // pieces; more is a slip of the pen
inline constexpr double longest_load = 1'000;    // hours

/// What a station's rate sets: pieces an hour, or a load and its hours.
struct StationRate {
  double per_hour = 0;
  int load = 0;
  double load_hours = 0;
};
/// "12 an hour", "5 minutes a piece", "24 a load, 9 hours a load".
std::optional<StationRate> rate_in(std::string_view words);
/// "4 %" or "2.5%": a share below 1.
std::optional<double> percent_in(std::string_view words);
/// "1 belt for 40 pieces", "0.5 l of oil for 100 pieces".
std::optional<Consumable> consumable_in(std::string_view words);
/// "Mon-Fri", "Tue, Thu-Sat": from Monday on; at least one.
std::optional<std::array<bool, 7>> weekdays_in(std::string_view words);
/// "2026-12-24", or "2026-12-24/2027-01-02", as ISO 8601 writes from one day to another.
std::optional<DaysOff> days_off_in(std::string_view words);

}  // namespace ordinatio::inline workshop
