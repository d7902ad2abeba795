// Drawings for the page: SVG whose shapes have class names, which the page gives colours. Of this folder alone.
#pragma once

#include <string>
#include <vector>

#include "bed/bed.h"
#include "bed/cutting.h"

namespace ordinatio::inline desk {

/// A plaque on its own piece, as it is seen: outline, chips, what is kept clear, the edge of the clear area, the ink.
std::string plaque_picture(const Artwork& artwork);
/// A piece with nothing on it.
std::string piece_picture(const Blank& blank);
/// A bed as the person stands before it: a group a pocket, with its piece and ink, and the registration marks.
std::string bed_picture(const Sheet& sheet);
/// The board that holds pieces on the bed: its holes, numbers and marks.
std::string board_picture(const Sheet& board);
/// Every measured piece, small: those that are free, then those kept for an item, then what is gone. Empty: there are none.
struct StockPiece {
  const Blank* blank = nullptr;
  std::string state;  // "free", "reserved", "used" or "spoiled"
};
std::string stock_picture(const std::vector<StockPiece>& pieces);
/// A pane as it lies on the saw: pieces with their names, what is kept clear, cuts with their numbers.
std::string pane_picture(const CuttingPlan& plan);
/// Ink alone, on nothing.
std::string ink_picture(const Path& ink);

}  // namespace ordinatio::inline desk
