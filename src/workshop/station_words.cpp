#include "workshop/station_words.h"

#include <cmath>

#include "plan/day.h"

namespace ordinatio::inline workshop {
namespace {

constexpr double minutes_an_hour = 60;
constexpr double most_consumed = 1'000'000;   // of one thing, for so many pieces
constexpr std::size_t consumable_limit = 60;  // bytes of its name

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// A number, and what stands behind it.
struct CountedWords {
  double count;
  std::string_view rest;
};

std::optional<CountedWords> counted_words(std::string_view words) {
  words = trimmed(words);
  const std::size_t end = std::min(words.find_first_not_of("0123456789."), words.size());
  const auto count = parse_number(words.substr(0, end));
  if (!count || !std::isfinite(*count)) return std::nullopt;
  return CountedWords{*count, trimmed(words.substr(end))};
}

bool is_whole(double count, double most) { return count >= 1 && count <= most && count == std::floor(count); }

std::optional<StationRate> loads_in(std::string_view pieces, std::string_view hours) {
  const auto load = counted_words(pieces), each = counted_words(hours);
  if (!load || load->rest != "a load" || !is_whole(load->count, most_an_hour)) return std::nullopt;
  if (!each || (each->rest != "hours a load" && each->rest != "hour a load")) return std::nullopt;
  if (!(each->count > 0) || each->count > longest_load) return std::nullopt;
  return StationRate{0, static_cast<int>(load->count), each->count};
}

/// "Mon", "Mon-Fri".
bool take_days(std::string_view words, std::array<bool, 7>& days) {
  const std::size_t dash = words.find('-');
  const auto first = weekday_named(trimmed(words.substr(0, dash)));
  const auto last = dash == std::string_view::npos ? first : weekday_named(trimmed(words.substr(dash + 1)));
  if (!first || !last) return false;
  for (unsigned day = *first;; day = (day + 1) % 7) {  // Sat-Mon goes round
    days[day] = true;
    if (day == *last) return true;
  }
}

}  // namespace

std::optional<StationRate> rate_in(std::string_view words) {
  if (const std::size_t comma = words.find(','); comma != std::string_view::npos) {
    return loads_in(words.substr(0, comma), words.substr(comma + 1));
  }
  const auto rate = counted_words(words);
  if (!rate || !(rate->count > 0)) return std::nullopt;
  double per_hour = 0;
  if (rate->rest == "an hour") per_hour = rate->count;
  if (rate->rest == "minutes a piece" || rate->rest == "minute a piece") per_hour = minutes_an_hour / rate->count;
  if (!(per_hour > 0) || per_hour > most_an_hour) return std::nullopt;
  return StationRate{per_hour, 0, 0};
}

std::optional<double> percent_in(std::string_view words) {
  const auto percent = counted_words(words);
  if (!percent || percent->rest != "%" || percent->count < 0 || percent->count >= 100) return std::nullopt;
  return percent->count / 100;
}

std::optional<Consumable> consumable_in(std::string_view words) {
  constexpr std::string_view between = " for ";
  const std::size_t at = words.rfind(between);
  if (at == std::string_view::npos) return std::nullopt;
  const auto used = counted_words(words.substr(0, at)), pieces = counted_words(words.substr(at + between.size()));
  if (!used || !pieces || (pieces->rest != "pieces" && pieces->rest != "piece")) return std::nullopt;
  if (used->rest.empty() || used->rest.size() > consumable_limit) return std::nullopt;
  const auto is_plausible = [](double count) { return count > 0 && count <= most_consumed; };
  if (!is_plausible(used->count) || !is_plausible(pieces->count)) return std::nullopt;
  return Consumable{std::string(used->rest), used->count, pieces->count};
}

std::optional<std::array<bool, 7>> weekdays_in(std::string_view words) {
  std::array<bool, 7> days{};
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find(',', at), words.size());
    if (!take_days(words.substr(at, end - at), days)) return std::nullopt;
    at = end + 1;
  }
  return days;
}

std::optional<DaysOff> days_off_in(std::string_view words) {
  const std::size_t slash = words.find('/');
  const auto first = day_named(trimmed(words.substr(0, slash)));
  const auto last = slash == std::string_view::npos ? first : day_named(trimmed(words.substr(slash + 1)));
  if (!first || !last || *last < *first) return std::nullopt;
  return DaysOff{*first, *last};
}

}  // namespace ordinatio::inline workshop
