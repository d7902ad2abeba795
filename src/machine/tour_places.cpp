#include <algorithm>
#include <limits>

#include "machine/tour.h"

namespace ordinatio::inline machine {
namespace {

/// Pairs of places of neighbours that are compared; more than that, and each stop is chosen for between its neighbours.
constexpr double most_place_pairs = 4e6;
constexpr int place_sweeps = 3;  // up and down the tour; later ones change next to nothing

double pairs_of_places(const TourTask& task, const std::vector<Visit>& tour) {
  double pairs = 0;
  for (std::size_t i = 1; i < tour.size(); ++i) {
    pairs += static_cast<double>(task.stops[tour[i - 1].stop].places.size() * task.stops[tour[i].stop].places.size());
  }
  return pairs;
}

/// Layer by layer: the least way to each place of each stop.
void choose_all(const TourTask& task, std::vector<Visit>& tour) {
  std::vector<std::vector<std::size_t>> before(tour.size());
  std::vector<double> ways, onward;
  for (std::size_t i = 0; i < tour.size(); ++i) {
    const std::size_t stop = tour[i].stop, count = task.stops[stop].places.size();
    onward.assign(count, std::numeric_limits<double>::infinity());
    before[i].assign(count, 0);
    for (std::size_t place = 0; place < count; ++place) {
      const Point here = begin_of(task, {stop, place});
      if (i == 0) onward[place] = task.ends.from ? leap(*task.ends.from, here) : 0;
      for (std::size_t earlier = 0; i > 0 && earlier < ways.size(); ++earlier) {
        const double way = ways[earlier] + leap(end_of(task, {tour[i - 1].stop, earlier}), here);
        if (way < onward[place]) onward[place] = way, before[i][place] = earlier;
      }
    }
    ways.swap(onward);
  }
  const std::size_t last = tour.back().stop;
  for (std::size_t place = 0; task.ends.to && place < ways.size(); ++place) {
    ways[place] += leap(end_of(task, {last, place}), *task.ends.to);
  }
  auto best = static_cast<std::size_t>(std::ranges::min_element(ways) - ways.begin());
  for (std::size_t i = tour.size(); i-- > 0;) {
    tour[i].place = best;
    best = before[i][best];
  }
}

void choose_between_neighbours(const TourTask& task, std::vector<Visit>& tour, std::size_t i) {
  const std::optional<Point> left = i > 0 ? end_of(task, tour[i - 1]) : task.ends.from;
  const std::optional<Point> right = i + 1 < tour.size() ? begin_of(task, tour[i + 1]) : task.ends.to;
  const auto cost = [&](std::size_t place) {
    const Visit visit{tour[i].stop, place};
    return (left ? leap(*left, begin_of(task, visit)) : 0) + (right ? leap(end_of(task, visit), *right) : 0);
  };
  double least = cost(tour[i].place);
  for (std::size_t place = 0; place < task.stops[tour[i].stop].places.size(); ++place) {
    if (const double way = cost(place); way < least) least = way, tour[i].place = place;
  }
}

}  // namespace

void choose_places(const TourTask& task, std::vector<Visit>& tour) {
  if (tour.empty()) return;
  if (pairs_of_places(task, tour) <= most_place_pairs) return choose_all(task, tour);
  for (int sweep = 0; sweep < place_sweeps; ++sweep) {
    for (std::size_t i = 0; i < tour.size(); ++i) choose_between_neighbours(task, tour, i);
    for (std::size_t i = tour.size(); i-- > 0;) choose_between_neighbours(task, tour, i);
  }
}

}  // namespace ordinatio::inline machine
