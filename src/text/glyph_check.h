// In: a glyph's outline as its font draws it, in ems. Out: why it cannot be a letter's, or nothing.
// Never: mends it. Of this folder alone.
#pragma once

#include <string>

#include "geometry/geometry.h"

namespace ordinatio::inline text {

/// Empty where the outline is within the limits of face_limits.h; else in words what is beyond one. Costs
/// O(edges · log edges) for a letter, and no more than the limits allow for anything else.
std::string damage_of_outline(const Path& path);

}  // namespace ordinatio::inline text
