#include "shop/piece_draft.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/phrase.h"
#include "csv/cells.h"
#include "csv/shown.h"

namespace ordinatio::inline shop {
namespace {

constexpr int draft_decimals = 2;          // a hundredth: finer than a photograph tells, and finer than a rule
constexpr double draft_reach = 10'000;     // mm: beyond it a place is a slip, as is what is no number
constexpr std::size_t spot_limit = 3'000;  // more than the corners and things of any piece

void add_number(std::string& text, double value) { append_number(text, value, draft_decimals); }

std::string joined(std::initializer_list<double> numbers, char between) {
  std::string text;
  for (const double number : numbers) {
    if (!text.empty()) text += between;
    add_number(text, number);
  }
  return text;
}

Fault no_spot(const std::string& text) {
  return {shown(text) + " is no place on a piece", "", "its numbers are millimetres, of a piece that fits on a bench",
          "Type them anew"};
}

/// The numbers that a text's words from the second on are, as many as it begins with.
std::vector<double> numbers_behind(const std::vector<std::string>& words, std::size_t most) {
  std::vector<double> numbers;
  for (std::size_t i = 1; i < words.size() && numbers.size() < most; ++i) {
    const auto number = parse_number(words[i]);
    if (!number || !(std::abs(*number) <= draft_reach)) break;
    numbers.push_back(*number);
  }
  return numbers;
}

/// A cell's semicolon parts things.
std::string name_behind(const std::vector<std::string>& words, std::size_t from) {
  std::string name;
  for (std::size_t i = from; i < words.size(); ++i) name += (name.empty() ? "" : " ") + words[i];
  std::ranges::replace(name, ';', ',');
  return name;
}

/// The chip as its cell has it. box: of the piece.
std::string chip_text(const Bounds& chip, const Bounds& box) {
  const double width = box.width(), height = box.height();
  const double left = std::clamp(chip.left - box.left, 0.0, width),
               right = std::clamp(chip.right - box.left, 0.0, width);
  const double bottom = std::clamp(chip.bottom - box.bottom, 0.0, height),
               top = std::clamp(chip.top - box.bottom, 0.0, height);
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
  return std::string(edge.name) + " " + joined({edge.from, edge.to}, '-') + " " + joined({edge.depth}, ' ');
}

/// The thing as its cell has it.
std::string thing_text(const KeptSpot& spot, const Bounds& box) {
  const Bounds& at = spot.box;
  const double left = at.left - box.left, bottom = at.bottom - box.bottom, radius = at.width() / 2;
  const std::string place = spot.is_round ? "round " + joined({left + radius, bottom + radius, radius}, ' ')
                                          : joined({left, bottom, at.width(), at.height()}, ' ');
  return (spot.name.empty() ? "" : spot.name + " ") + place +
         (spot.margin > 0 ? " margin " + joined({spot.margin}, ' ') : "");
}

template <class Part>
std::string cell_of(const std::vector<Part>& parts, const Bounds& box,
                    std::string (*text)(const Part&, const Bounds&)) {
  std::string cell;
  for (const Part& part : parts) cell += (cell.empty() ? "" : "; ") + text(part, box);
  return cell;
}

}  // namespace

MaybeFault add_spot(PieceDraft& draft, const std::string& text) {
  const std::vector<std::string> words = words_in(text);
  const std::string kind = words.empty() ? "" : words.front();
  const std::vector<double> n = numbers_behind(words, 5);
  if (n.size() < 2 || draft.corners.size() + draft.chips.size() + draft.kept.size() == spot_limit) return no_spot(text);
  if (kind == "corner") {
    draft.corners.push_back({n[0], n[1]});
    return std::nullopt;
  }
  if (n.size() < 4) return no_spot(text);
  const Bounds box{n[0], n[1], n[0] + n[2], n[1] + n[3]};
  if (kind == "chip") {
    draft.chips.push_back(box);
    return std::nullopt;
  }
  if (n.size() < 5 || (kind != "area" && kind != "round")) return no_spot(text);
  draft.kept.push_back({name_behind(words, 6), box, kind == "round", n[4]});
  return std::nullopt;
}

BlankCells cells_of(const PieceDraft& draft) {
  Bounds box;
  for (const Point corner : draft.corners) box.add(corner);
  if (draft.corners.empty()) box = {0, 0, 0, 0};
  std::string outline;
  for (const Point corner : draft.corners)
    outline += (outline.empty() ? "" : " ") + joined({corner.x - box.left, corner.y - box.bottom}, ',');
  return {{"id", std::string(trimmed(draft.id))},
          {"material", std::string(trimmed(draft.material))},
          {"glass", draft.glass},
          {"thickness", draft.thickness},
          {"chips", cell_of(draft.chips, box, chip_text)},
          {"keep_clear", cell_of(draft.kept, box, thing_text)},
          {"outline", outline},
          {"note", std::string(trimmed(draft.note))}};
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
