#include "machine/tour.h"

namespace ordinatio::inline machine {

Point begin_of(const TourTask& task, Visit visit) { return task.stops[visit.stop].places[visit.place]; }

Point end_of(const TourTask& task, Visit visit) {
  const Stop& stop = task.stops[visit.stop];
  return stop.places[stop.returns ? visit.place : 1 - visit.place];
}

double travel_of(const TourTask& task, const std::vector<Visit>& tour) {
  if (tour.empty()) return 0;
  double travel = task.ends.from ? leap(*task.ends.from, begin_of(task, tour.front())) : 0;
  for (std::size_t i = 1; i < tour.size(); ++i) travel += leap(end_of(task, tour[i - 1]), begin_of(task, tour[i]));
  return travel + (task.ends.to ? leap(end_of(task, tour.back()), *task.ends.to) : 0);
}

std::vector<Visit> short_tour(const TourTask& task) {
  if (is_small(task)) return exact_tour(task);
  std::vector<Visit> tour = nearest_tour(task);
  shorten(task, tour);
  choose_places(task, tour);
  return tour;
}

}  // namespace ordinatio::inline machine
