#include "shop/piece_draft.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/phrase.h"
#include "csv/cells.h"
#include "csv/shown.h"

namespace ordinatio::inline shop {
namespace {

constexpr int draft_decimals = 2;       // a hundredth: a hundred times finer than a photograph tells
constexpr double draft_reach = 10'000;  // mm: beyond it a place is a slip, as is what is no number

std::string number_text_of(double value) {
  std::string text;
  append_number(text, value, draft_decimals);
  return text;
}

std::optional<double> place_in(std::string_view word) {
  const auto number = parse_number(word);
  return number && std::abs(*number) <= draft_reach ? number : std::nullopt;
}

Fault no_place_in(const std::string& column, const std::string& text, const char* form) {
  return {shown(text) + " is no place", column, "", form};
}

Result<Polygon> corners_in(const std::vector<std::string>& words) {
  Polygon corners;
  for (const std::string& word : words) {
    const std::size_t comma = std::min(word.find(','), word.size());
    const auto x = place_in(word.substr(0, comma)), y = place_in(word.substr(std::min(comma + 1, word.size())));
    if (!x || !y) return no_place_in("outline", word, "Give x and y in mm, such as 12.5,40");
    corners.push_back({*x, *y});
  }
  if (corners.size() > corner_limit) {
    return Fault{"the outline has more than " + std::to_string(corner_limit) + " corners", "outline", "",
                 "Take some away"};
  }
  return corners;
}

/// The chip as its cell has it. box: of the piece, from 0.
Result<std::string> chip_text(const std::string& text, const Bounds& box) {
  std::vector<double> n;
  for (const std::string& word : words_in(text)) {
    const auto number = place_in(word);
    if (!number) return no_place_in("chips", text, "Give left, bottom, width and height in mm");
    n.push_back(*number);
  }
  if (n.size() != 4) return no_place_in("chips", text, "Give left, bottom, width and height in mm");
  const double width = box.width(), height = box.height(), x = n[0] - box.left, y = n[1] - box.bottom;
  const double left = std::clamp(x, 0.0, width), right = std::clamp(x + n[2], 0.0, width);
  const double bottom = std::clamp(y, 0.0, height), top = std::clamp(y + n[3], 0.0, height);
  struct Edge {
    const char* name;
    double off, from, to, depth;
  };
  const std::array<Edge, 4> edges{{{"left", left, bottom, top, right},
                                   {"bottom", bottom, left, right, top},
                                   {"right", width - right, bottom, top, width - left},
                                   {"top", height - top, left, right, height - bottom}}};
  // At a corner it lies at two edges: it is as deep as it is least.
  const Edge& edge =
      *std::ranges::min_element(edges, {}, [](const Edge& one) { return std::pair(one.off, one.depth); });
  return std::string(edge.name) + " " + number_text_of(edge.from) + "-" + number_text_of(edge.to) + " " +
         number_text_of(edge.depth);
}

/// The thing as its cell has it: its first two numbers are its place.
Result<std::string> thing_text(const std::string& text, const Bounds& box) {
  std::string moved;
  std::size_t numbers = 0;
  for (const std::string& word : words_in(text)) {
    auto number = place_in(word);
    if (number && numbers < 2) *number -= numbers == 0 ? box.left : box.bottom;
    moved += (moved.empty() ? "" : " ") + (number ? number_text_of(*number) : word);
    if (number) ++numbers;
  }
  if (numbers < 3 || moved.find(';') != std::string::npos)
    return no_place_in("keep_clear", text, "Give its name, its place and its size, and no semicolon");
  return moved;
}

/// read: what becomes of one of them, in the box. Parts of a cell.
template <class Read>
Result<std::string> cell_of(const std::vector<std::string>& parts, const Bounds& box, Read&& read) {
  std::string cell;
  for (const std::string& part : parts) {
    const Result<std::string> text = read(part, box);
    if (!text.ok()) return text.fault();
    cell += (cell.empty() ? "" : "; ") + *text;
  }
  return cell;
}

}  // namespace

std::string corner_text(Point corner) { return number_text_of(corner.x) + "," + number_text_of(corner.y); }

Result<BlankCells> cells_of(const PieceDraft& draft) {
  const Result<Polygon> corners = corners_in(draft.corners);
  if (!corners.ok()) return corners.fault();
  Bounds box;
  for (const Point corner : *corners) box.add(corner);
  if (corners->empty()) box = {0, 0, 0, 0};
  std::string outline;
  for (const Point corner : *corners)
    outline += (outline.empty() ? "" : " ") + corner_text(corner - Point{box.left, box.bottom});
  const Result<std::string> chips = cell_of(draft.chips, box, chip_text);
  if (!chips.ok()) return chips.fault();
  const Result<std::string> things = cell_of(draft.keep_clear, box, thing_text);
  if (!things.ok()) return things.fault();
  return BlankCells{{"id", std::string(trimmed(draft.id))},
                    {"material", draft.material},
                    {"glass", draft.glass},
                    {"thickness", draft.thickness},
                    {"chips", *chips},
                    {"keep_clear", *things},
                    {"outline", outline},
                    {"note", draft.note}};
}

Result<BlankRow> piece_of(const BlankCells& cells, const Design& nominal) {
  const Result<std::string> bytes = with_row_added("", cells, "");
  if (!bytes.ok()) return bytes.fault();
  Result<Blanks> blanks = blanks_in(*bytes, "", nominal.width, nominal.height, nominal.blank.outline);
  if (!blanks.ok()) return blanks.fault();
  if (!blanks->rows.empty()) return std::move(blanks->rows.front());
  Fault fault = blanks->held.front().fault;
  const std::size_t column = fault.where.find("column ");
  fault.where = column == std::string::npos ? "" : fault.where.substr(column);
  return fault;
}

std::string next_id(const std::vector<BlankRow>& rows) {
  if (rows.empty()) return "";
  const std::string& last = rows.back().blank.id;
  const std::size_t letters = last.find_last_not_of("0123456789") + 1;  // npos + 1: none
  constexpr std::size_t most_digits = 9;
  const std::size_t digits = last.size() - letters;
  if (digits == 0 || digits > most_digits) return "";
  std::string id;
  for (long number = std::stol(last.substr(letters)) + 1;; ++number) {
    id = last.substr(0, letters) + zero_padded(std::to_string(number), digits);
    if (std::ranges::find(rows, id, [](const BlankRow& row) { return row.blank.id; }) == rows.end()) return id;
  }
}

}  // namespace ordinatio::inline shop
