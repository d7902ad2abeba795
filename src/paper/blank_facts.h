// In: a measured piece.
// Out: what the program understood of it, a line a fact, with the place on the piece that it is about.
// Never: draws. Of this folder alone.
#pragma once

#include "paper/paper.h"

namespace ordinatio::inline paper {

/// Where a fact's letter goes: from a place on the piece a little way inwards.
struct FactPlace {
  Point at, inward;  // mm from the piece's lower-left corner; a direction, of any length
};
struct BlankFact {
  std::string text;
  std::optional<FactPlace> place;  // absent: it is about the whole piece
};
/// Corners, chips, things kept clear.
std::vector<BlankFact> facts_of_shape(const Blank& blank);
/// "slate, 6.5 mm thick"; may be empty.
std::string material_of(const BlankPicture& piece);
/// Factory edges, use, note.
std::vector<BlankFact> facts_of_row(const BlankPicture& piece);

/// A measure in mm, to a tenth.
std::string one_place(double value);

inline constexpr std::size_t shown_facts =
    14;  // of a piece; the letters and the page end somewhere, the rest is counted

}  // namespace ordinatio::inline paper
