// In: a text's lines and the rules they are set by. Out: the size that no setting of them exceeds, by the box around the
// area. Never: sets them, or needs to know the area.
#pragma once

#include "fit/fit.h"

namespace ordinatio::inline fit {

struct SizeBound {
  /// What a block of so many lines takes at the least, in its ems.
  struct Extent {
    double width = 0, height = 0;
  };
  std::vector<Extent> extents;  // of each number of lines that the text may be set in
  double largest = 0;           // mm an em, by the largest capitals allowed
  double smallest_cap = 0;      // em, of the smallest line, at the most

  /// mm: the smallest line's capitals are no taller in an area that a box of this size holds.
  [[nodiscard]] double cap_height_in(double width, double height) const;
};
}  // namespace ordinatio::inline fit
