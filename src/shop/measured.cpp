#include "shop/measured.h"
#include "base/account.h"
#include "base/phrase.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline shop {
namespace {

std::string number_text(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text;
}

Fault place_fault(const std::string& word, const std::string& option) {
  return {"\"" + word + "\" is no place", option, "",
          "Give it in mm from the bed's lower-left corner, such as 12.4,388 or, for the second of them, 2:12.4,388"};
}

struct NumberedPlace {
  std::optional<int> number;
  Point place;
};

std::optional<NumberedPlace> read_place(std::string_view word) {
  NumberedPlace result;
  if (const std::size_t colon = word.find(':'); colon != std::string_view::npos) {
    const auto number = parse_number(word.substr(0, colon));
    if (!number || *number != std::floor(*number) || *number < 1 || *number > 1e6) return std::nullopt;
    result.number = static_cast<int>(*number);
    word.remove_prefix(colon + 1);
  }
  const std::size_t comma = word.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto x = parse_number(word.substr(0, comma)), y = parse_number(word.substr(comma + 1));
  if (!x || !y) return std::nullopt;
  result.place = {*x, *y};
  return result;
}

std::string name_of(const Correction& correction, std::size_t i) {
  return (correction.by == Correction::By::marks ? "mark " : "corner ") + std::to_string(correction.numbers[i]);
}

/// "mark 2, drawn at 592,8, is off by 0.05 mm (0.03 across, -0.04 up)"
std::string residual_text(const Correction& correction, std::size_t i) {
  const Point r = correction.registration.residuals[i];
  const bool is_mark = correction.by == Correction::By::marks;
  return name_of(correction, i) + (is_mark ? ", drawn at " + place_text(correction.registration.drawn[i]) + "," : "") +
         " is off by " + mm_text(length(r), 3) + " (" + number_text(r.x, 3) + " across, " + number_text(r.y, 3) +
         " up)";
}

std::string scale_text(const Transform& t) {
  const auto [least, most] = scales_of(t);
  if (most - least < 1e-9) return number_text(most, 5);
  return number_text(least, 5) + " to " + number_text(most, 5);
}

/// How the drawing moves: what its middle is moved by, and what it is turned and scaled by.
std::string move_text(const Correction& correction, const Machine& bed) {
  const Transform& t = correction.registration.to_bed;
  const Point middle{bed.width / 2, bed.height / 2}, shift = t(middle) - middle;
  std::string text = "turned by " + number_text(turn_of(t), 3) + " degrees";
  if (correction.registration.model != Registration::Model::rigid) text += ", scaled by " + scale_text(t);
  if (correction.by == Correction::By::corners) return "the piece lies " + text;
  return "the sheet is " + text + "; the bed's middle moves by " + number_text(shift.x, 3) + " mm across and " +
         number_text(shift.y, 3) + " mm up";
}

}  // namespace

std::string place_text(Point place) { return number_text(place.x, 2) + "," + number_text(place.y, 2); }

Result<MeasuredPlaces> read_places(const std::vector<std::string>& words, const std::string& option, std::size_t all) {
  MeasuredPlaces measured;
  std::size_t numbered = 0;
  for (const std::string& word : words) {
    const auto place = read_place(word);
    if (!place) return place_fault(word, option);
    numbered += place->number ? 1 : 0;
    measured.numbers.push_back(place->number.value_or(static_cast<int>(measured.numbers.size()) + 1));
    measured.places.push_back(place->place);
  }
  if (numbered != 0 && numbered != words.size()) {
    return Fault{"some places are numbered and some are not", option, "it is not clear which the others are",
                 "Number all of them, such as 1:12,12 3:12.4,388, or none"};
  }
  if (numbered == 0 && all != 0 && words.size() != all) {
    return Fault{std::to_string(words.size()) + " places are given and the sheet has " + std::to_string(all) + " marks",
                 option, "it is not clear which they are", "Number them, such as 1:12,12 3:12.4,388"};
  }
  return measured;
}

MaybeFault over_limit(const Correction& correction, double limit, const std::string& option) {
  if (!(limit > 0) || !std::isfinite(limit))
    return Fault{"this is no limit", "--limit", "", "Give it in mm, such as 0.3"};
  if (worst_residual(correction.registration) <= limit) return std::nullopt;
  std::string left;
  for (std::size_t i = 0; i < correction.numbers.size(); ++i) {
    left += (i == 0 ? "" : "; ") + residual_text(correction, i);
  }
  return Fault{"what was measured does not agree with what is drawn", option,
               left + "; the limit is " + mm_text(limit, 3),
               "Measure again, and give the places in their order. If they are right, allow scale or affine, or a "
               "larger --limit"};
}

void account_for(Account& account, const Correction& correction, const Machine& bed) {
  const Registration& registration = correction.registration;
  account.notes.push_back(move_text(correction, bed));
  for (std::size_t i = 0; i < correction.numbers.size(); ++i) {
    account.notes.push_back(residual_text(correction, i));
  }
  account.notes.push_back("root mean square " + mm_text(registration.root_mean_square, 3) + ", " +
                          counted(static_cast<std::size_t>(registration.redundancy), "equation") +
                          " beyond the unknowns");
  if (const std::string unseen = unseen_by(registration); !unseen.empty()) account.notes.push_back(unseen);
  const Transform& t = registration.to_bed;
  const auto [least, most] = scales_of(t);
  if (std::max(1 - least, most - 1) > suspicious_scale) {
    account.warnings.push_back("a scale of " + scale_text(t) +
                               " is more than machines and boards are off by: measure " + "again");
  }
  if (correction.by == Correction::By::marks && std::abs(turn_of(t)) > suspicious_turn) {
    account.warnings.push_back("a turn of " + number_text(turn_of(t), 2) +
                               " degrees is more than a board lies off by: were the marks given in their order?");
  }
}

}  // namespace ordinatio::inline shop
