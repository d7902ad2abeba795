// How long a way is, for the tests of this folder.
#pragma once

#include "geometry/contour_start.h"
#include "machine/tour.h"

namespace ordinatio {

/// mm between the stops, and to and from the ends where they are given.
inline double travel_of(const TourTask& task, const std::vector<Visit>& tour) {
  if (tour.empty()) return 0;
  double travel = task.ends.from ? leap(*task.ends.from, begin_of(task, tour.front())) : 0;
  for (std::size_t i = 1; i < tour.size(); ++i) travel += leap(end_of(task, tour[i - 1]), begin_of(task, tour[i]));
  return travel + (task.ends.to ? leap(end_of(task, tour.back()), *task.ends.to) : 0);
}

/// mm that the machine moves between contours.
inline double travel_between(const std::vector<Path>& contours) {
  double travel = 0;
  for (std::size_t i = 1; i < contours.size(); ++i) {
    const Path& before = contours[i - 1];
    const Point end = is_closed(before) ? before.points().front() : before.points().back();
    travel += leap(end, contours[i].points().front());
  }
  return travel;
}

}  // namespace ordinatio
