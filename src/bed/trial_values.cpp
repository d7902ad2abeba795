#include <algorithm>
#include <array>

#include "bed/settings_card.h"

namespace ordinatio::inline bed {
namespace {

struct Quantity {
  std::string_view what;
  std::array<std::string_view, 2> units;  // the first is shown in mends; an empty one is none
  double most;                            // more is a slip of the pen
  std::string_view example;
};
constexpr Quantity quantities[] = {{"speed", {"mm/s", "mm/min"}, 1e6, "100, 200, 400 mm/s"},
                                   {"power", {"%", "W"}, 1e4, "20 to 80 by 20 %"},
                                   {"pitch", {"mm", ""}, 10, "0.05, 0.1, 0.2 mm"}};

std::string_view trimmed_ends(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

Fault trial_fault(const Quantity& quantity, std::string_view text, const std::string& what, const std::string& why) {
  return {std::string(quantity.what) + " = \"" + std::string(text) + "\" " + what, "", why,
          "Write, for example: " + std::string(quantity.what) + " = \"" + std::string(quantity.example) + "\""};
}

/// The unit at the end of the text, which is cut off it; empty where there is none.
std::string take_unit(std::string_view& text) {
  const std::size_t at = text.find_last_of("0123456789");
  if (at == std::string_view::npos) return {};
  std::string unit(trimmed_ends(text.substr(at + 1)));
  text = text.substr(0, at + 1);
  return unit;
}

std::optional<std::vector<double>> listed_values(std::string_view text) {
  std::vector<double> values;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    const auto value = parse_number(trimmed_ends(text.substr(at, comma - at)));
    if (!value || values.size() > most_trials) return std::nullopt;
    values.push_back(*value);
    at = comma + 1;
  }
  return values;
}

/// "100 to 300 by 100"
std::optional<std::vector<double>> stepped_values(std::string_view text) {
  const std::size_t to = text.find(" to "), by = text.find(" by ");
  if (to == std::string_view::npos || by == std::string_view::npos || by < to) return std::nullopt;
  const auto from = parse_number(trimmed_ends(text.substr(0, to)));
  const auto end = parse_number(trimmed_ends(text.substr(to + 4, by - to - 4)));
  const auto step = parse_number(trimmed_ends(text.substr(by + 4)));
  if (!from || !end || !step || *step <= 0 || *end < *from) return std::nullopt;
  constexpr double slack = 1e-9;  // of a step
  const double steps = (*end - *from) / *step + slack;
  std::vector<double> values;
  for (int i = 0; i <= steps && values.size() <= most_trials; ++i) values.push_back(*from + i * *step);
  return values;
}

}  // namespace

Result<TrialValues> read_trial_values(std::string_view what, std::string_view text) {
  const Quantity& quantity = *std::ranges::find(quantities, what, &Quantity::what);
  std::string_view numbers = trimmed_ends(text);
  TrialValues trial{std::string(what), {}, take_unit(numbers)};
  if (trial.unit.empty() && quantity.units[1].empty()) trial.unit = quantity.units[0];
  if (trial.unit.empty() || std::ranges::find(quantity.units, trial.unit) == quantity.units.end()) {
    const std::string second = quantity.units[1].empty() ? "" : " or " + std::string(quantity.units[1]);
    return trial_fault(quantity, text, trial.unit.empty() ? "has no unit" : "has another unit than is known here",
                       "its unit is " + std::string(quantity.units[0]) + second);
  }
  auto values = listed_values(numbers);
  if (!values) values = stepped_values(numbers);
  if (!values) return trial_fault(quantity, text, "is no list of numbers", "");
  if (values->size() > most_trials) {
    return trial_fault(quantity, text, "has too many values", "a side has no more than " + std::to_string(most_trials));
  }
  const double most = trial.unit == "%" ? 100 : quantity.most;
  for (const double value : *values) {
    if (!(value > 0 && value <= most))
      return trial_fault(quantity, text, "holds a value that cannot be",
                         "each is more than 0" + std::string(trial.unit == "%" ? ", and no more than 100 %" : ""));
    if (std::ranges::count(*values, value) > 1) return trial_fault(quantity, text, "holds a value twice", "");
  }
  trial.values = *std::move(values);
  return trial;
}

}  // namespace ordinatio::inline bed
