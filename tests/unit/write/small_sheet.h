// A sheet of two items to write, laid as the program lays one. Of this folder's tests alone.
#pragma once

#include <string>

#include "bed/bed.h"

namespace ordinatio {

/// On a bed of 200 × 120 mm. Item 1042-1: a slab with a window, engraved. Item 1042-2, turned: a sail with a curved edge
/// engraved, a rectangle scored. Pockets of 60 × 60 mm at (20, 30) and (110, 30); three marks; the scale bar.
Sheet small_sheet(const std::string& first_id = "1042-1", const std::string& second_id = "1042-2");

}  // namespace ordinatio
