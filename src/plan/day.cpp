#include "plan/day.h"

#include <algorithm>
#include <array>

#include "base/base.h"
#include "base/phrase.h"

namespace ordinatio::inline plan {
namespace {

constexpr std::array<std::string_view, 7> weekdays{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                   "Friday", "Saturday", "Sunday"};
constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::size_t short_name = 3;  // letters
constexpr int first_year = 1900, last_year = 2999;

std::optional<unsigned> digits_at(std::string_view text, std::size_t at, std::size_t count) {
  unsigned value = 0;
  for (const char c : text.substr(at, count)) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + static_cast<unsigned>(c - '0');
  }
  return value;
}

bool same_letters(std::string_view a, std::string_view b) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c; };
  return std::ranges::equal(a, b, {}, small, small);
}

}  // namespace

std::optional<Day> day_named(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits_at(text, 0, 4), month = digits_at(text, 5, 2), day = digits_at(text, 8, 2);
  if (!year || !month || !day || *year < first_year || *year > last_year) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(static_cast<int>(*year)), std::chrono::month(*month),
                                         std::chrono::day(*day)};
  return date.ok() ? std::optional(Day(date)) : std::nullopt;
}

std::string iso_text(Day day) {
  const std::chrono::year_month_day date(day);
  return zero_padded(std::to_string(static_cast<int>(date.year())), 4) + "-" +
         zero_padded(std::to_string(static_cast<unsigned>(date.month())), 2) + "-" +
         zero_padded(std::to_string(static_cast<unsigned>(date.day())), 2);
}

std::string day_text(Day day) {
  const std::chrono::year_month_day date(day);
  return std::string(weekdays[weekday_of(day)].substr(0, short_name)) + " " +
         std::to_string(static_cast<unsigned>(date.day())) + " " +
         std::string(months[static_cast<unsigned>(date.month()) - 1]) + " " +
         std::to_string(static_cast<int>(date.year()));
}

unsigned weekday_of(Day day) { return std::chrono::weekday(day).iso_encoding() - 1; }

std::optional<unsigned> weekday_named(std::string_view word) {
  for (unsigned i = 0; i < weekdays.size(); ++i) {
    if (same_letters(word, weekdays[i]) || same_letters(word, weekdays[i].substr(0, short_name))) return i;
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline plan
