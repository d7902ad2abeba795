// In: a question about lines, and rooms that they may fill. Out: plans that fill the rooms evenly, and their neighbours.
// Never: fits a plan, or compares two. Of line_plan.cpp alone.
#pragma once

#include <optional>

#include "fit/line_plan.h"

namespace ordinatio::inline fit {

/// The text spread over lines in proportion to their rooms, which together are `whole`. Lines that must end where none of
/// these does are ended besides. O(pieces + rows).
LineEnds spread_over(const PlanQuestion& question, const std::vector<double>& room, double whole);

/// The plan with the end of one line moved to the next place before or behind it; nothing where there is none between its
/// neighbours, or where the line must end.
std::optional<LineEnds> with_end_moved(const PlanQuestion& question, const LineEnds& ends, std::size_t line,
                                       bool forward);

}  // namespace ordinatio::inline fit
