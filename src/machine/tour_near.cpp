#include <limits>

#include "machine/place_grid.h"
#include "machine/tour.h"

namespace ordinatio::inline machine {
namespace {

/// The places of stops that may come next.
class OpenStops {
 public:
  explicit OpenStops(const TourTask& task) : task_(task), grid_(all_places(task)), awaited_(task.stops.size(), 0) {
    later_.resize(task.stops.size());
    for (const auto& [first, second] : task.precedence) later_[first].push_back(second), ++awaited_[second];
    for (std::size_t stop = 0; stop < task.stops.size(); ++stop) {
      if (awaited_[stop] == 0) open(stop);
    }
  }

  /// The nearest place; of equally near ones the first by stop and place.
  [[nodiscard]] Visit nearest(Point from) const {
    double least = std::numeric_limits<double>::infinity();
    Visit best;
    grid_.look_around(
        from,
        [&](const GridPlace& place) {
          const double away = leap(from, place.at);
          const bool is_first = std::pair(place.stop, place.place) < std::pair(best.stop, best.place);
          if (away < least || (away == least && is_first)) least = away, best = {place.stop, place.place};
        },
        [&] { return least; });
    return best;
  }

  void take(std::size_t stop) {
    for (std::size_t i = 0; i < task_.stops[stop].places.size(); ++i) {
      grid_.remove({task_.stops[stop].places[i], stop, i});
    }
    for (const std::size_t next : later_[stop]) {
      if (--awaited_[next] == 0) open(next);
    }
  }

 private:
  static std::vector<GridPlace> all_places(const TourTask& task) {
    std::vector<GridPlace> places;
    for (std::size_t stop = 0; stop < task.stops.size(); ++stop) {
      for (std::size_t i = 0; i < task.stops[stop].places.size(); ++i) {
        places.push_back({task.stops[stop].places[i], stop, i});
      }
    }
    return places;
  }

  void open(std::size_t stop) {
    for (std::size_t i = 0; i < task_.stops[stop].places.size(); ++i) grid_.add({task_.stops[stop].places[i], stop, i});
  }

  const TourTask& task_;
  PlaceGrid grid_;
  std::vector<std::vector<std::size_t>> later_;
  std::vector<std::size_t> awaited_;  // by stop: how many must still come before it
};

/// Where a way begins that may begin anywhere: the lower left corner of all that there is.
Point corner_of(const TourTask& task) {
  Bounds box;
  for (const Stop& stop : task.stops) {
    for (const Point place : stop.places) box.add(place);
  }
  return {box.left, box.bottom};
}

}  // namespace

std::vector<Visit> nearest_tour(const TourTask& task) {
  OpenStops open(task);
  std::vector<Visit> tour;
  Point here = task.ends.from ? *task.ends.from : corner_of(task);
  while (tour.size() < task.stops.size()) {
    tour.push_back(open.nearest(here));
    here = end_of(task, tour.back());
    open.take(tour.back().stop);
  }
  return tour;
}

}  // namespace ordinatio::inline machine
