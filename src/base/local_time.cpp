#include "base/local_time.h"

#include <charconv>
#include <ctime>
#include <optional>

namespace ordinatio::inline base {
namespace {

std::optional<int> number_at(std::string_view text, std::size_t at, std::size_t digits) {
  int value = 0;
  const char* const begin = text.data() + at;
  const auto [end, error] = std::from_chars(begin, begin + digits, value);
  return error == std::errc() && end == begin + digits && value >= 0 ? std::optional(value) : std::nullopt;
}

std::optional<std::time_t> seconds_of(std::string_view utc) {
  constexpr std::string_view form = "0000-00-00T00:00:00Z";
  if (utc.size() != form.size()) return std::nullopt;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] != '0' && utc[i] != form[i]) return std::nullopt;
  }
  const auto year = number_at(utc, 0, 4), month = number_at(utc, 5, 2), day = number_at(utc, 8, 2);
  const auto hour = number_at(utc, 11, 2), minute = number_at(utc, 14, 2), second = number_at(utc, 17, 2);
  if (!year || !month || !day || !hour || !minute || !second) return std::nullopt;
  std::tm parts{};
  parts.tm_year = *year - 1900, parts.tm_mon = *month - 1, parts.tm_mday = *day;
  parts.tm_hour = *hour, parts.tm_min = *minute, parts.tm_sec = *second;
  return ::timegm(&parts);
}

void append_two(std::string& text, int value, std::string_view behind) {
  if (value < 10) text += '0';
  text += std::to_string(value);
  text += behind;
}

}  // namespace

std::string local_time(std::string_view utc) {
  const auto seconds = seconds_of(utc);
  std::tm parts{};
  ::tzset();  // localtime_r need not look at TZ by itself (POSIX)
  if (!seconds || ::localtime_r(&*seconds, &parts) == nullptr) return std::string(utc);
  std::string text = std::to_string(parts.tm_year + 1900) + "-";
  append_two(text, parts.tm_mon + 1, "-");
  append_two(text, parts.tm_mday, " ");
  append_two(text, parts.tm_hour, ":");
  append_two(text, parts.tm_min, " ");
  const std::string_view zone = parts.tm_zone == nullptr ? "" : parts.tm_zone;
  // "+03" where a zone has no letters of its own
  return text + (zone.empty() || zone.front() == '+' || zone.front() == '-' ? "UTC" : "") + std::string(zone);
}

}  // namespace ordinatio::inline base
