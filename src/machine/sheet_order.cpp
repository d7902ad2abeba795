#include "machine/sheet_order.h"

#include <algorithm>
#include <map>

#include "geometry/contour_order.h"
#include "machine/path_order.h"
#include "machine/piece_order.h"

namespace ordinatio::inline machine {
namespace {

/// A registration mark, or what shows a person something, is no piece's.
bool is_of_a_piece(const SheetPart& part) {
  return part.operation != Operation::guide && !(part.operation == Operation::mark && part.id.starts_with("mark-"));
}

/// Where pieces lie, in the order in which they first come, and the place of each there.
struct Pieces {
  std::map<std::string, std::size_t> places;
  std::vector<Bounds> boxes;
};

Pieces pieces_of(const Sheet& sheet) {
  std::map<std::string_view, Bounds> blanks;
  for (const SheetItem& item : sheet.items) {
    Bounds& box = blanks[item.item.id];
    for (const Point corner : item.artwork.blank.outline.vertices) box.add(item.to_bed(corner));
  }
  Pieces pieces;
  for (const SheetPart& part : sheet.parts) {
    if (!is_of_a_piece(part) || !pieces.places.emplace(part.id, pieces.boxes.size()).second) continue;
    const auto blank = blanks.find(part.id);
    pieces.boxes.push_back(blank != blanks.end() ? blank->second : bounds_of(part.path));
  }
  return pieces;
}

/// By id: when a piece's turn is.
std::map<std::string, std::size_t> turns_of(const Sheet& sheet) {
  Pieces pieces = pieces_of(sheet);
  const std::vector<std::size_t> order = order_of_pieces(pieces.boxes);
  std::vector<std::size_t> turns(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) turns[order[i]] = i;
  for (auto& [id, place] : pieces.places) place = turns[place];
  return std::move(pieces.places);
}

void order_operation(Sheet& sheet, Operation operation) {
  std::vector<SheetPart*> parts;
  std::vector<FollowedPiece> pieces;
  for (SheetPart& part : sheet.parts) {
    if (part.operation != operation || !is_of_a_piece(part)) continue;
    parts.push_back(&part);
    pieces.push_back({contours_of(part.path), operation == Operation::cut});
  }
  order_contours(pieces);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Path ordered;
    for (const Path& contour : pieces[i].contours) ordered.append(contour);
    parts[i]->path = std::move(ordered);
  }
}

}  // namespace

void order_work(Sheet& sheet) {
  const std::map<std::string, std::size_t> turns = turns_of(sheet);
  const auto turn_of = [&](const SheetPart& part) {
    if (part.operation == Operation::guide) return std::size_t{0};
    return is_of_a_piece(part) ? turns.at(part.id) : turns.size();
  };
  std::ranges::stable_sort(sheet.parts, {},
                           [&](const SheetPart& part) { return std::pair(part.operation, turn_of(part)); });
  for (const Operation operation : all_operations) {
    if (!is_filled(operation) && operation != Operation::guide) order_operation(sheet, operation);
  }
}

}  // namespace ordinatio::inline machine
