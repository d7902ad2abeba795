#include "machine/tour.h"

namespace ordinatio::inline machine {

Point begin_of(const TourTask& task, Visit visit) { return task.stops[visit.stop].places[visit.place]; }

Point end_of(const TourTask& task, Visit visit) {
  const Stop& stop = task.stops[visit.stop];
  return stop.places[stop.returns ? visit.place : 1 - visit.place];
}

std::vector<Visit> short_tour(const TourTask& task) {
  if (is_small(task)) return exact_tour(task);
  std::vector<Visit> tour = nearest_tour(task);
  shorten(task, tour);
  choose_places(task, tour);
  return tour;
}

}  // namespace ordinatio::inline machine
