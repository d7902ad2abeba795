// In: the frame that all sheets for a piece share, which says where pieces lie.
// Out: the board that holds them there: holes to cut, numbers to engrave, the marks.
// Never: moves a pocket; what does not go is a Fault.
#pragma once

#include "bed/bed.h"

namespace ordinatio::inline bed {

/// A board as a sheet without items: numbers engraved, holes cut, marks, and the scale bar.
struct Board {
  Sheet sheet;
  double hole_width = 0, hole_height = 0;  // mm, of the first pocket's hole as it lies
  double notch = 0;                        // mm across; less than was asked for where neighbours stand too near
  double number_height = 0;                // mm
};

/// Faults: a hole off the bed, over a mark, or with less than `least_web` to its neighbour; no room for notches of
/// `least_notch`, or for numbers; more pockets than `board_pocket_limit`.
Result<Board> build_jig(const Frame& frame, Typesetter& typesetter);

inline constexpr double least_web = 3;  // mm of board between holes: a narrower one breaks; common practice, no source
inline constexpr double least_notch = 10;  // mm across: a fingertip's edge still gets under; common practice, no source
inline constexpr std::size_t board_pocket_limit = 2'000;  // each hole is held against each; a bed holds some dozens

}  // namespace ordinatio::inline bed
