#include <algorithm>

#include "blanks/blank_cells.h"
#include "csv/cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

struct CornerName {
  std::string_view name;
  std::size_t corner;
};
constexpr std::array<CornerName, 8> corner_names{{{"lower-left", 0},
                                                  {"lower-right", 1},
                                                  {"upper-right", 2},
                                                  {"upper-left", 3},
                                                  {"ll", 0},
                                                  {"lr", 1},
                                                  {"ur", 2},
                                                  {"ul", 3}}};

constexpr const char* forms = "Write square, r18, cut 10 or cut 12x8, for all four or as in: lower-left r18; ur cut 10";

constexpr NumberRange any_measure{least_measure, length_limit};

std::optional<std::size_t> corner_named(std::string_view word) {
  const auto found = std::ranges::find(corner_names, word, &CornerName::name);
  return found == corner_names.end() ? std::nullopt : std::optional(found->corner);
}

/// The corner that a part of the cell begins with; its words are taken off.
std::optional<std::size_t> take_corner(std::vector<std::string>& words) {
  for (std::size_t count = 1; count <= 2; ++count) {  // "upper-left" is written "upper left" too
    if (words.size() < count) break;
    const auto corner = corner_named(count == 1 ? words[0] : words[0] + "-" + words[1]);
    if (!corner) continue;
    words.erase(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(count));
    return corner;
  }
  return std::nullopt;
}

/// The corner that the part may begin with under another name: "top-left r18".
std::optional<std::string> corner_meant(const std::vector<std::string>& words) {
  constexpr std::array<std::string_view, 4> names{"lower-left", "lower-right", "upper-right", "upper-left"};
  if (words.size() < 2) return std::nullopt;
  for (const std::string& said : {words[0] + "-" + words[1], words[0]}) {
    if (auto meant = nearest_word(said, names)) return meant;
  }
  return std::nullopt;
}

Fault no_shape(std::string_view part) {
  return {shown(part) + " is no shape of a corner", "", "it is neither square, nor rounded, nor cut", forms};
}

Result<CornerShape> read_round(std::string_view radius) {
  const auto length = read_length(radius, "radius of a corner", any_measure);
  if (!length.ok()) return length.fault();
  return CornerShape{Corner::rounded, *length, *length};
}

Result<CornerShape> read_cut(const std::string& size) {
  const std::size_t sign = size.find('x');
  const auto across = read_length(size.substr(0, sign), "size of a cut", any_measure);
  if (!across.ok()) return across.fault();
  const auto up = sign == std::string::npos ? across : read_length(size.substr(sign + 1), "size of a cut", any_measure);
  if (!up.ok()) return up.fault();
  return CornerShape{Corner::cut, *across, *up};
}

/// `square`, `r18`, `r 18`, `rounded 18`, `cut 10`, `cut 12x8`.
Result<CornerShape> read_shape(const std::vector<std::string>& words, std::string_view part) {
  if (words.empty()) return no_shape(part);
  std::string rest;
  for (std::size_t i = 1; i < words.size(); ++i) rest += words[i];  // "12 x 8" is "12x8"
  if (words[0] == "square" && rest.empty()) return CornerShape{};
  if (words[0] == "cut" && !rest.empty()) return read_cut(rest);
  if (words.size() > 2) return no_shape(part);
  for (const std::string_view word : {"r", "radius", "rounded"}) {
    if (words[0] == word && !rest.empty()) return read_round(rest);
  }
  if (words[0].starts_with('r') && number_in(words[0].substr(1))) return read_round(words[0].substr(1) + rest);
  return no_shape(part);
}

/// A side of the box, and which corners are at its ends.
struct Side {
  std::string_view name;
  std::size_t first, second;
  bool lies;  // it runs across
};
constexpr std::array<Side, 4> side_ends{
    {{"bottom", 0, 1, true}, {"right", 1, 2, false}, {"top", 2, 3, true}, {"left", 3, 0, false}}};

/// What a corner takes of a side. mm
double taken(const CornerShape& shape, const Side& side) {
  if (shape.kind == Corner::square) return 0;
  return side.lies || shape.kind == Corner::rounded ? shape.across : shape.up;
}

constexpr double corner_slack = 1e-6;  // mm; corners stand where they were reckoned to, give or take rounding

}  // namespace

Result<CornerShapes> read_corners(std::string_view cell, const CornerShapes& unnamed) {
  const std::string plain = closed_up(with_plain_signs(lower_case(cell)), 'x');
  const std::vector<std::string_view> parts = parts_in(plain);
  CornerShapes shapes = unnamed;
  std::array<bool, 4> named{};
  for (const std::string_view part : parts) {
    std::vector<std::string> words = words_in(part);
    std::erase(words, "mm");
    const auto corner = take_corner(words);
    if (const auto meant = corner ? std::nullopt : corner_meant(words)) {
      return Fault{shown(part) + " begins with no corner that is known", "", "the nearest is " + *meant, forms};
    }
    const Result<CornerShape> shape = read_shape(words, part);
    if (!shape.ok()) return shape.fault();
    if (!corner && parts.size() > 1) {
      return Fault{shown(part) + " does not say which corner", "", "the cell names several corners", forms};
    }
    if (!corner) {
      shapes.fill(*shape);
      continue;
    }
    if (std::exchange(named[*corner], true)) {
      return Fault{shown(part) + " names a corner a second time", "", "", "Say each corner once"};
    }
    shapes[*corner] = *shape;
  }
  return shapes;
}

MaybeFault check_corners(const CornerShapes& corners, double width, double height) {
  for (const Side& side : side_ends) {
    const CornerShape &first = corners[side.first], &second = corners[side.second];
    const double length = side.lies ? width : height, sum = taken(first, side) + taken(second, side);
    // Cuts that take all of a side would leave an edge without length.
    const auto has_kind = [&](Corner kind) { return first.kind == kind || second.kind == kind; };
    const bool leaves_some = has_kind(Corner::cut) && !has_kind(Corner::rounded);
    if (leaves_some ? sum < length - least_measure : sum <= length + corner_slack) continue;
    return Fault{"the corners do not fit on the piece", "",
                 "on its " + std::string(side.name) + " edge they take " + mm_text(taken(first, side)) + " and " +
                     mm_text(taken(second, side)) + " of " + mm_text(length),
                 "Measure the corners and the edge again, or give the piece's outline"};
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline blanks
