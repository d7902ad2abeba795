// The pockets' numbers on a board. Of this folder alone.
#pragma once

#include "bed/jig_hole.h"

namespace ordinatio::inline bed {

struct PlacedNumber {
  int pocket = 0;
  Path path;  // filled, bed mm
};
struct BoardNumbers {
  double height = 0;  // mm, of the figures
  std::vector<PlacedNumber> numbers;
};

/// Every pocket's number beside its hole, all of one height: the largest of ISO 3098-1's, from 10 mm down, at which each
/// finds a place on the board that is clear of holes and of what `taken` holds, and nearer to its own hole than to others;
/// all at the same place beside their holes if that goes, by the datum first. Faults: no place even at 2.5 mm, or the figures' face is not there.
Result<BoardNumbers> place_numbers(const Frame& frame, const std::vector<Hole>& holes, const std::vector<Bounds>& taken,
                                   Typesetter& typesetter);

}  // namespace ordinatio::inline bed
