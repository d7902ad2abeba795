// The fit in a rectangle, which most clear areas are, in closed form. Of this folder alone.
#pragma once

#include "fit/fit.h"

namespace ordinatio::inline fit {

/// The region of the rows as a box, where all its edges are level or upright.
std::optional<Bounds> rectangle_of(std::span<const FitRow> rows);
/// Whether the rows ask no more room than a box around the set: those that keep it off something ask for more.
bool are_of_box(std::span<const FitRow> rows, const Bounds& box);
/// What largest_copy() finds in a rectangular room for a set with these bounds: nothing else of it counts there.
std::optional<Placement> largest_copy_in(const Bounds& room, const Bounds& box, const Wish& wish);

}  // namespace ordinatio::inline fit
