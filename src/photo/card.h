// The printed card that lies beside a piece in its photo: where its marks are and what they look like. Who prints it and who
// looks for it read it here, so that they cannot differ.
#pragma once

#include <array>

#include "geometry/geometry.h"

namespace ordinatio::inline photo {

// A mark is a target as surveyors use it: a disc parted into black and white quarters, in a black ring that holds them together.
// Its place is where the quarters meet: that point stays where it is on the card however the card is seen. mm.
inline constexpr double mark_radius = 9;   // of the ring, outside
inline constexpr double disc_radius = 7;   // of the quarters; the ring is drawn from here on
inline constexpr double mark_clear = 2.5;  // of white paper, at the least, around the ring

/// The marks' places, counter-clockwise. The card's own coordinates: mm, y up, origin at the first mark, the second one on
/// the x-axis.
inline constexpr std::array<Point, 4> mark_places{{{0, 0}, {160, 0}, {160, 100}, {0, 100}}};

/// The paper around the marks, in the same coordinates: half of A4 (ISO 216) or of US Letter, whichever reaches farther.
inline constexpr Bounds card_paper{-27.95, -24.25, 187.95, 124.25};
inline constexpr double check_line = 100;  // mm; a ruler must find it so long on the print

// ---- card.cpp ----
/// The ink of one mark, its contours closed: quarters and ring. Of the first mark the quarters on the other diagonal are black,
/// which tells how the card is turned.
Path mark_ink(std::size_t mark);
/// Whether the card is black at a place within `mark_radius` of a mark, as mark_ink draws it.
bool is_black_in_mark(std::size_t mark, Point from_centre);

}  // namespace ordinatio::inline photo
