// A piece as a person draws it, round its edge and what is on it, and the row of the file of pieces that says the same.
#pragma once

#include "blanks/blanks.h"
#include "blanks/row_edit.h"

namespace ordinatio::inline shop {

/// Places in mm, from any origin.
struct PieceDraft {
  std::string id, material, glass, thickness, note;  // as their cells have them
  std::vector<std::string> corners;                  // "x,y", in turn
  /// "left bottom width height": what is broken out of the edge that it lies nearest to, of the box around the corners.
  std::vector<std::string> chips;
  std::vector<std::string> keep_clear;  // as the cell of that name has it: "old stamp 20 30 25 12 margin 3"
};

/// The row's cells, places from the lower-left corner of the box, rounded to a hundredth. Faults: what is no place.
Result<BlankCells> cells_of(const PieceDraft& draft);
/// A corner as a draft has it.
std::string corner_text(Point corner);

/// The piece as the file of pieces would say it. Faults: as a row of it is held, the place being its column.
Result<BlankRow> piece_of(const BlankCells& cells, const Design& nominal);

/// The id behind the last row's: S-71 behind S-70. Empty where the last one ends in no number.
std::string next_id(const std::vector<BlankRow>& rows);

}  // namespace ordinatio::inline shop
