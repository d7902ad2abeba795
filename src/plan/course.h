// The course of the work, day by day. Of this folder alone.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "plan/plan.h"

namespace ordinatio::inline plan {

/// How many of so many pieces break at a station.
using Breakage = std::function<int(std::size_t station, int pieces)>;

/// When each station first and last has something to do, in days from the first.
struct Course {
  std::vector<int> first, last;
  int done = 0;  // the day on which the last plaque is done
};

/// The share of what comes in at the first station that comes out whole of the last.
double whole_share(const std::vector<WorkStation>& stations);

/// Nothing where it takes longer than `longest_plan`.
std::optional<Course> course_of(const PlanTask& task, int prepared, const Breakage& breakage);

}  // namespace ordinatio::inline plan
