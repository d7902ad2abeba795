// In: what an item's artwork has a machine follow, and what the sheet draws of it. Out: whether they are the same contours.
// Never: asks for an order: how the machine goes about it is no part of the artwork. Of this folder alone.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// Whether `drawn` has the contours of `wanted`, moved to the bed: in any order, closed ones from any of their corners on and
/// turning as before, open ones from either end.
bool is_followed(const Path& drawn, const Path& wanted, const Transform& to_bed);

}  // namespace ordinatio::inline check
