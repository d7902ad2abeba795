#include <algorithm>

#include "blanks/blank_cells.h"
#include "csv/cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

constexpr std::array<std::string_view, 4> edge_names{"left", "bottom", "right", "top"};
constexpr const char* chip_form = "Write the edge, from-to along it and the depth, such as top 40-62 7";

std::optional<std::size_t> edge_named(std::string_view word) {
  const auto found = std::ranges::find(edge_names, word);
  return found == edge_names.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - edge_names.begin()));
}

Fault no_edge(const std::string& word) {
  const auto nearest = nearest_word(word, edge_names);
  return {shown(word) + " is no edge", "",
          nearest ? "the nearest is " + *nearest : "edges are left, bottom, right, top",
          "Write left, bottom, right or top"};
}

struct Chip {
  std::size_t edge = 0;
  double from = 0, to = 0, depth = 0;  // mm
};

Result<Chip> read_chip(std::string_view part) {
  std::vector<std::string> words = words_in(closed_up(with_plain_signs(lower_case(part)), '-'));
  std::erase(words, "mm");
  const auto edge = edge_named(words.front());
  if (!edge) return no_edge(words.front());
  const std::size_t dash = words.size() == 3 ? words[1].find('-', 1) : std::string::npos;
  if (dash == std::string::npos) {
    return Fault{"the chip " + shown(part) + " cannot be told", "", "it is not an edge, from-to and a depth",
                 chip_form};
  }
  const std::string from_word = words[1].substr(0, dash), to_word = words[1].substr(dash + 1);
  const auto from = read_length(from_word, "place on an edge", any_distance);
  const auto to = read_length(to_word, "place on an edge", any_distance);
  const auto depth = read_length(words[2], "depth of a chip", {least_measure, length_limit});
  for (const auto* length : {&from, &to, &depth}) {
    if (!length->ok()) return length->fault();
  }
  return Chip{*edge, *from, *to, *depth};
}

MaybeFault check_chip(const Chip& chip, std::string_view part, double width, double height) {
  const bool upright = chip.edge % 2 == 0;  // left and right
  const double along = upright ? height : width, across = upright ? width : height;
  const std::string what = "the chip " + shown(part) + " ", edge(edge_names[chip.edge]);
  if (chip.to - chip.from < least_measure) {
    return Fault{what + "has no length", "", "it must end where more than it begins", "Write the smaller place first"};
  }
  if (chip.to > along) {
    return Fault{what + "is outside the piece", "", "its " + edge + " edge is " + mm_text(along) + " long",
                 std::string("Measure along the edge, from ") + (upright ? "the bottom" : "the left")};
  }
  if (chip.depth >= across) {
    return Fault{what + "is as deep as the piece", "",
                 "the piece is " + mm_text(across) + (upright ? " wide" : " high"),
                 "Measure the depth from the edge; what is left whole is the piece"};
  }
  return std::nullopt;
}

Polygon notch(const Chip& chip, double width, double height) {
  switch (chip.edge) {
    case 0:
      return polygon_of_box({0, chip.from, chip.depth, chip.to});
    case 1:
      return polygon_of_box({chip.from, 0, chip.to, chip.depth});
    case 2:
      return polygon_of_box({width - chip.depth, chip.from, width, chip.to});
    default:
      return polygon_of_box({chip.from, height - chip.depth, chip.to, height});
  }
}

}  // namespace

Fault too_many_parts() {
  return {"there are more than " + std::to_string(part_limit) + " of them", "", "nobody measures so many on one piece",
          "Leave out what does not matter, or cover several by one"};
}

Result<Polygons> read_chips(std::string_view cell, double width, double height) {
  Polygons chips;
  for (const std::string_view part : parts_in(cell)) {
    const auto chip = read_chip(part);
    if (!chip.ok()) return chip.fault();
    if (auto fault = check_chip(*chip, part, width, height)) return *std::move(fault);
    if (chips.size() == part_limit) return too_many_parts();
    chips.push_back(notch(*chip, width, height));
  }
  return chips;
}

Result<FactoryEdges> read_factory_edges(std::string_view cell) {
  std::string plain = lower_case(cell);
  std::replace_if(
      plain.begin(), plain.end(), [](char c) { return c == ',' || c == ';'; }, ' ');
  FactoryEdges factory;
  const std::array<bool*, 4> places{&factory.left, &factory.bottom, &factory.right, &factory.top};
  for (const std::string& word : words_in(plain)) {
    const auto edge = edge_named(word);
    if (!edge) return no_edge(word);
    *places[*edge] = true;
  }
  return factory;
}

std::size_t parts_of(const Polygons& piece) {
  const Polygons parts = offset(piece, -least_measure / 2, Join::mitre, piece_grid);
  return static_cast<std::size_t>(
      std::ranges::count_if(parts, [](const Polygon& part) { return area_of(part) >= least_area; }));
}

MaybeFault check_chips(const Blank& blank) {
  const Polygons whole = polygons_of(path_of(blank.outline), piece_grid);
  for (const Polygon& chip : blank.chips) {
    if (area_of(intersection({chip}, whole, piece_grid)) >= least_area) continue;
    return Fault{"a chip takes nothing from the piece", "", "there is no material where it is",
                 "Take it out; a corner that is cut needs no chip"};
  }
  const std::size_t pieces = parts_of(polygons_of(path_of(blank), piece_grid));
  if (pieces == 1) return std::nullopt;
  return Fault{
      pieces == 0 ? "the chips leave nothing of the piece" : "the chips part the piece in " + std::to_string(pieces),
      "", "a row is one piece", "Measure the chips again, or write each part as a piece of its own"};
}

}  // namespace ordinatio::inline blanks
