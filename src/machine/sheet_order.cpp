#include "machine/sheet_order.h"

#include <algorithm>
#include <map>

#include "geometry/contour_order.h"
#include "machine/path_order.h"

namespace ordinatio::inline machine {
namespace {

/// A registration mark, or what shows a person something, is no piece's.
bool is_of_a_piece(const SheetPart& part) {
  return part.operation != Operation::guide && !(part.operation == Operation::mark && part.id.starts_with("mark-"));
}

/// By id: when a piece's turn is.
std::map<std::string, std::size_t> turns_of(const Sheet& sheet) {
  std::map<std::string, std::size_t> places;
  std::vector<Bounds> boxes;
  for (const SheetPart& part : sheet.parts) {
    if (!is_of_a_piece(part)) continue;
    const auto [place, is_new] = places.emplace(part.id, boxes.size());
    if (is_new) boxes.emplace_back();
    boxes[place->second].add(bounds_of(part.path));
  }
  std::vector<Point> centres;
  centres.reserve(boxes.size());
  for (const Bounds& box : boxes) centres.push_back(box.centre());
  const std::vector<std::size_t> order = order_of_pieces(centres);
  std::vector<std::size_t> turns(order.size());
  for (std::size_t i = 0; i < order.size(); ++i) turns[order[i]] = i;
  for (auto& [id, place] : places) place = turns[place];
  return places;
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

Sheet in_order_of_work(const Sheet& sheet) {
  Sheet ordered = sheet;
  const std::map<std::string, std::size_t> turns = turns_of(sheet);
  std::ranges::stable_sort(ordered.parts, {}, [&](const SheetPart& part) {
    return std::pair(part.operation, is_of_a_piece(part)                  ? turns.at(part.id)
                                     : part.operation == Operation::guide ? 0
                                                                          : turns.size());
  });
  for (const Operation operation : all_operations) {
    if (!is_filled(operation) && operation != Operation::guide) order_operation(ordered, operation);
  }
  return ordered;
}

}  // namespace ordinatio::inline machine
