// In and out as fit.h has them. Out besides: what it cost, in counts that the clock has no part in. Of this folder, its
// tests and its bench alone. Of this folder alone.
#pragma once

#include "fit/fit.h"

namespace ordinatio::inline fit {

/// What choosing the lines of a text cost.
struct SettingWork {
  std::size_t fits = 0;        // plans fitted
  std::size_t looks = 0;       // lines looked at
  std::size_t nodes = 0;       // programmes solved to part lines from what is kept clear
  bool limit_reached = false;  // then the lines are the best of those tried
};

struct PartingTerms {
  std::size_t allowed;                // programmes that may be solved once there is a place at all
  std::span<const FitRow> rows = {};  // that hold besides the area's own
};

// ---- parted_copy.cpp ----
/// As largest_copy of several parts, on these terms.
std::optional<Placement> largest_copy_within(std::span<const ConvexHull> parts, const ClearArea& area, const Wish& wish,
                                             PartingCost& cost, const PartingTerms& terms);

/// The copy's size alone, mm a unit, where it is more than `least`; else nothing: the search ends as soon as that is sure.
/// `rows`: of the area's region for all parts together, and what holds besides; `bounds`: the parts'.
std::optional<double> largest_size_over(double least, std::vector<FitRow> rows, const Bounds& bounds,
                                        std::span<const ConvexHull> parts, std::span<const ConvexHull> obstacles,
                                        const Wish& wish, PartingCost& cost, std::size_t allowed);

}  // namespace ordinatio::inline fit
