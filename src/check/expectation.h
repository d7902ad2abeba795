// Of this folder alone.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include "check/check.h"
#include "check/difference.h"
#include "check/ink.h"

namespace ordinatio::inline check {

/// A part of the sheet, and the place of the item whose ink it is in sheet.items; none for marks and guides.
struct ExpectedPart {
  const SheetPart* part;
  std::optional<std::size_t> item;
  Ink ink = {};  // of the part, as far as it is compared; its area as geometry tells it
};

/// What every file of a sheet must show. Points into the sheet.
struct Expectation {
  const Sheet& sheet;
  std::vector<ClearArea> clear_areas;  // of sheet.items, bed mm
  std::vector<ExpectedPart> parts;     // in the sheet's order
  Transform to_drawn;                  // from where the sheet was laid to where it was drawn: there pockets are
  /// Whether the sheet's own ink lies where it may, apart, and turns as it should: a file that draws it point by point
  /// need not be measured.
  bool is_sound = false;
};

/// Throws a Difference when the sheet itself is not whole: an item's layer has no part or is drawn elsewhere than its
/// place on the bed says, an item is mirrored or leaves its pocket, parts are not grouped by operation, a mark or the scale
/// bar is not what it should be.
Expectation expectation_of(const Sheet& sheet);

/// The expectation, or why the sheet has none: each file's check says so.
struct SheetModel::Known {
  std::variant<Expectation, Difference> expectation;
};
/// Throws the Difference.
const Expectation& expectation_of(const SheetModel& model);

/// What is filled is compared by its area, what is followed by its length.
Measure needed_of(const SheetPart& part);
/// "item 1042-2, engrave", or "mark-1, mark".
std::string name_of(const ExpectedPart& expected);

}  // namespace ordinatio::inline check
