#include <algorithm>
#include <limits>
#include <tuple>

#include "machine/place_grid.h"
#include "machine/tour_search.h"

namespace ordinatio::inline machine {
namespace {

constexpr std::size_t near_count = 8;    // neighbours of a stop that moves are tried with; ten gained under 0.2 %
constexpr std::size_t sample_count = 6;  // places of a stop that stand for all of it: corners of one contour lie close

/// Places spread over all of a stop's.
std::vector<GridPlace> samples_of(const TourTask& task) {
  std::vector<GridPlace> samples;
  for (std::size_t stop = 0; stop < task.stops.size(); ++stop) {
    const std::vector<Point>& places = task.stops[stop].places;
    const std::size_t count = std::min(places.size(), sample_count);
    for (std::size_t i = 0; i < count; ++i) {
      const std::size_t place = i * places.size() / count;
      samples.push_back({places[place], stop, place});
    }
  }
  return samples;
}

struct NearStop {
  double away;
  std::size_t stop;
  friend bool operator<(const NearStop& a, const NearStop& b) {
    return std::tie(a.away, a.stop) < std::tie(b.away, b.stop);
  }
};

/// The nearest so far, each stop once, sorted.
class Nearest {
 public:
  void take(NearStop found) {
    if (nearest_.size() == near_count && !(found < nearest_.back())) return;
    const auto known = std::ranges::find(nearest_, found.stop, &NearStop::stop);
    if (known != nearest_.end()) {
      if (!(found < *known)) return;
      nearest_.erase(known);
    } else if (nearest_.size() == near_count) {
      nearest_.pop_back();
    }
    nearest_.insert(std::upper_bound(nearest_.begin(), nearest_.end(), found), found);
  }
  [[nodiscard]] double reach() const {
    return nearest_.size() == near_count ? nearest_.back().away : std::numeric_limits<double>::infinity();
  }
  [[nodiscard]] const std::vector<NearStop>& all() const { return nearest_; }

 private:
  std::vector<NearStop> nearest_;
};

}  // namespace

NearStops::NearStops(const TourTask& task) : near_(task.stops.size()) {
  const std::vector<GridPlace> samples = samples_of(task);
  PlaceGrid grid(samples);
  for (const GridPlace& sample : samples) grid.add(sample);
  for (std::size_t i = 0; i < samples.size();) {
    const std::size_t stop = samples[i].stop;
    Nearest nearest;
    for (; i < samples.size() && samples[i].stop == stop; ++i) {
      const Point from = samples[i].at;
      const auto take = [&](const GridPlace& place) {
        if (place.stop != stop) nearest.take({leap(from, place.at), place.stop});
      };
      grid.look_around(from, take, [&] { return nearest.reach(); });
    }
    for (const NearStop& near : nearest.all()) near_[stop].push_back(static_cast<std::uint32_t>(near.stop));
  }
}

}  // namespace ordinatio::inline machine
