// Punctuation that hangs over the edge of a block. Of this folder alone.
#pragma once

#include "text/text.h"

namespace ordinatio::inline fit {

/// How much of a line's ink at its left and right end does not count for its alignment, em.
struct Overhang {
  double left = 0, right = 0;
};
Overhang overhang_of(const ShapedLine& line, Typesetter& typesetter);

}  // namespace ordinatio::inline fit
