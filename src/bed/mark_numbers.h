// The marks' numbers on a board, by which they are named when they are measured. Of this folder alone.
#pragma once

#include "bed/jig_hole.h"

namespace ordinatio::inline bed {

/// Each mark's number beside it, `height` tall or smaller, clear of holes and of what `taken` holds; a mark that leaves no
/// room for one has none. Faults: the figures' face is not there.
Result<std::vector<SheetPart>> number_marks(const Frame& frame, const std::vector<Hole>& holes,
                                            std::vector<Bounds> taken, double height, Typesetter& typesetter);

}  // namespace ordinatio::inline bed
