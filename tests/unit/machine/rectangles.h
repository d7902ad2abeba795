// Sheets of rectangles on a bed, and a motion with round figures. Of this folder's tests alone.
#pragma once

#include <string>
#include <vector>

#include "machine/machine.h"

namespace ordinatio {

/// One item each, `item-1`, `item-2`, …, with that operation alone.
Sheet sheet_of(const std::vector<Bounds>& boxes, Operation operation = Operation::engrave);
/// 300 mm/s along scan lines, 500 mm/s between them, 3,000 mm/s², 0.1 mm, both ways, at once on the way again: run-up 15 mm.
Motion plain_motion();

}  // namespace ordinatio
