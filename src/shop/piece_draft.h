// A piece as a person draws it, round its edge and what is on it, and the row of the file of pieces that says the same.
#pragma once

#include "blanks/blanks.h"
#include "blanks/row_edit.h"

namespace ordinatio::inline shop {

/// What lies on a piece and is not engraved over.
struct KeptSpot {
  std::string name;
  Bounds box;
  bool is_round = false;  // a circle as wide as the box
  double margin = 0;
};
/// Places in mm, from any origin.
struct PieceDraft {
  std::string id, material, glass, thickness, note;  // as their cells have them
  Polygon corners;
  std::vector<Bounds> chips;  // broken out of the edge that each lies nearest to, of the box around the corners
  std::vector<KeptSpot> kept;
};

/// Adds what a text says: "corner X Y", "chip X Y WIDTH HEIGHT", "area X Y WIDTH HEIGHT MARGIN NAME"; "round" as an area, for
/// the circle in it. X and Y: of the lower left. Faults: none of these, or no number where one is wanted.
MaybeFault add_spot(PieceDraft& draft, const std::string& text);

/// The row's cells: places from the lower-left corner of the box, to a hundredth.
BlankCells cells_of(const PieceDraft& draft);

/// The piece as the file of pieces would say it. Faults: as a row of it is held, the place being its column.
Result<BlankRow> piece_of(const BlankCells& cells, const Design& nominal);

/// The id behind the last row's: S-71 behind S-70. Empty where the last one ends in no number.
std::string next_id(const std::vector<BlankRow>& rows);

}  // namespace ordinatio::inline shop
