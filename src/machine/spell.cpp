#include "machine/spell.h"

#include <chrono>
#include <cmath>
#include <span>

#include "base/base.h"
#include "base/phrase.h"

namespace ordinatio::inline machine {
namespace {

constexpr double seconds_a_minute = 60, seconds_an_hour = 3600;

struct Unit {
  std::string_view word;
  double size;
};
constexpr Unit speed_units[] = {{"mm/s", 1}, {"mm/min", 1 / seconds_a_minute}};
constexpr Unit acceleration_units[] = {{"mm/s2", 1}, {"mm/s²", 1}};
constexpr Unit time_units[] = {
    {"h", seconds_an_hour}, {"min", seconds_a_minute}, {"m", seconds_a_minute}, {"s", 1}, {"ms", 1e-3}};

void trim(std::string_view& text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
}

const Unit* unit_named(std::string_view word, std::span<const Unit> units) {
  for (const Unit& unit : units) {
    if (unit.word == word) return &unit;
  }
  return nullptr;
}

std::string_view taken(std::string_view& text, std::size_t count) {
  std::string_view part = text.substr(0, count);
  text.remove_prefix(part.size());
  trim(part), trim(text);
  return part;
}

std::string_view take_number(std::string_view& text) { return taken(text, text.find_first_not_of("0123456789.+-eE ")); }

std::optional<double> quantity_in(std::string_view text, std::span<const Unit> units) {
  trim(text);
  const std::optional<double> number = parse_number(take_number(text));
  const Unit* unit = unit_named(text, units);
  if (!number || unit == nullptr) return std::nullopt;
  return *number * unit->size;
}

}  // namespace

std::string time_text(double seconds) {
  const double minutes = std::round(seconds / seconds_a_minute);
  if (minutes < 1) return "under a minute";
  const double hours = std::floor(minutes / 60), rest = minutes - 60 * hours;
  std::string text;
  if (hours > 0) append_number(text, hours, 0), text += " h";
  if (hours == 0 || rest > 0) {
    text += text.empty() ? "" : " ";
    append_number(text, rest, 0), text += " min";
  }
  return text;
}

std::optional<double> speed_in(std::string_view text) { return quantity_in(text, speed_units); }
std::optional<double> acceleration_in(std::string_view text) { return quantity_in(text, acceleration_units); }

std::optional<double> time_in(std::string_view text) {
  trim(text);
  if (text.empty()) return std::nullopt;
  double seconds = 0, last = 2 * seconds_an_hour;
  while (!text.empty()) {
    const std::optional<double> number = parse_number(take_number(text));
    const Unit* unit = unit_named(taken(text, text.find_first_of("0123456789. ")), time_units);
    if (!number || *number < 0 || unit == nullptr || unit->size >= last) return std::nullopt;
    seconds += *number * unit->size;
    last = unit->size;
  }
  return seconds;
}

std::optional<std::string> day_after(std::string_view iso_day, int days) {
  namespace calendar = std::chrono;
  if (iso_day.size() != 10 || iso_day[4] != '-' || iso_day[7] != '-') return std::nullopt;
  const auto number = [&](std::size_t at, std::size_t size) {
    const std::string_view digits = iso_day.substr(at, size);
    const bool plain = digits.find_first_not_of("0123456789") == std::string_view::npos;
    return plain ? static_cast<int>(parse_number(digits).value_or(0)) : 0;
  };
  const calendar::year_month_day day{calendar::year{number(0, 4)}, calendar::month{static_cast<unsigned>(number(5, 2))},
                                     calendar::day{static_cast<unsigned>(number(8, 2))}};
  if (!day.ok() || number(0, 4) == 0) return std::nullopt;
  const calendar::year_month_day later{calendar::sys_days{day} + calendar::days{days}};
  if (static_cast<int>(later.year()) > 9999) return std::nullopt;
  return zero_padded(std::to_string(static_cast<int>(later.year())), 4) + '-' +
         zero_padded(std::to_string(static_cast<unsigned>(later.month())), 2) + '-' +
         zero_padded(std::to_string(static_cast<unsigned>(later.day())), 2);
}

}  // namespace ordinatio::inline machine
