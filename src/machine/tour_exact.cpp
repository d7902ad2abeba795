#include <limits>

#include "machine/tour.h"

namespace ordinatio::inline machine {
namespace {

constexpr std::size_t most_exact_stops = 14;  // subsets are bits of a number, and each has a row of places

/// The least way through each subset of the stops, by the place where its last stop begins.
class SubsetTable {
 public:
  explicit SubsetTable(const TourTask& task) : task_(task), needed_(task.stops.size(), 0) {
    for (std::size_t stop = 0; stop < task.stops.size(); ++stop) {
      for (std::size_t place = 0; place < task.stops[stop].places.size(); ++place) visits_.push_back({stop, place});
    }
    for (const auto& [first, second] : task.precedence) needed_[second] |= bit(first);
    for (const Visit visit : visits_) begins_.push_back(begin_of(task, visit)), ends_.push_back(end_of(task, visit));
    ways_.assign(visits_.size() << task.stops.size(), {});
  }

  std::vector<Visit> best() {
    const std::size_t all = (std::size_t{1} << task_.stops.size()) - 1;
    for (std::size_t v = 0; v < visits_.size(); ++v) {
      if (needed_[visits_[v].stop] != 0) continue;
      way(bit(visits_[v].stop), v).length = task_.ends.from ? leap(*task_.ends.from, begins_[v]) : 0;
    }
    for (std::size_t done = 1; done < all; ++done) go_on(done);
    std::size_t last = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t v = 0; v < visits_.size(); ++v) {
      const double total = way(all, v).length + (task_.ends.to ? leap(ends_[v], *task_.ends.to) : 0);
      if (total < least) least = total, last = v;
    }
    return followed_back(all, last);
  }

 private:
  struct Way {
    double length = std::numeric_limits<double>::infinity();
    std::size_t before = 0;  // the visit that leads here
  };
  static std::size_t bit(std::size_t stop) { return std::size_t{1} << stop; }
  Way& way(std::size_t done, std::size_t visit) { return ways_[done * visits_.size() + visit]; }

  void go_on(std::size_t done) {
    for (std::size_t here = 0; here < visits_.size(); ++here) {
      const double so_far = way(done, here).length;
      if (so_far == std::numeric_limits<double>::infinity()) continue;
      for (std::size_t next = 0; next < visits_.size(); ++next) {
        const std::size_t stop = visits_[next].stop;
        if ((done & bit(stop)) != 0 || (needed_[stop] & ~done) != 0) continue;
        Way& onward = way(done | bit(stop), next);
        const double there = so_far + leap(ends_[here], begins_[next]);
        if (there < onward.length) onward = {there, here};
      }
    }
  }

  std::vector<Visit> followed_back(std::size_t done, std::size_t last) {
    std::vector<Visit> tour(task_.stops.size());
    for (std::size_t i = tour.size(); i-- > 0;) {
      tour[i] = visits_[last];
      const std::size_t before = way(done, last).before;
      done &= ~bit(visits_[last].stop);
      last = before;
    }
    return tour;
  }

  const TourTask& task_;
  std::vector<Visit> visits_;
  std::vector<Point> begins_, ends_;
  std::vector<std::size_t> needed_;  // by stop: those that come before it
  std::vector<Way> ways_;
};

}  // namespace

bool is_small(const TourTask& task) {
  if (task.stops.size() > most_exact_stops) return false;
  double places = 0;
  for (const Stop& stop : task.stops) places += static_cast<double>(stop.places.size());
  return static_cast<double>(std::size_t{1} << task.stops.size()) * places * places <= exact_work;
}

std::vector<Visit> exact_tour(const TourTask& task) {
  if (task.stops.empty()) return {};
  return SubsetTable(task).best();
}

}  // namespace ordinatio::inline machine
