#include "machine/tour_search.h"

#include <algorithm>
#include <limits>

#include "base/lots.h"

namespace ordinatio::inline machine {
namespace {

constexpr double least_gain = 1e-7;            // mm: less is rounding, and could go on for ever
constexpr std::size_t longest_moved = 3;       // stops that Or-opt moves together
constexpr std::size_t most_places_tried = 64;  // of a stop that is moved; choose_places looks at all of them
constexpr std::size_t kicks_a_stop = 4,
                      kicks_besides = 100;  // five times as many gain a hundredth on tours of 500 stops
constexpr std::size_t longest_kick = 30;    // stops in a stretch that a kick moves: what it breaks is mended nearby
/// Stops moved, and what looking at one costs beside that: a few tenths of a second over all kicks, whatever the tour. When it is
/// spent, the tour is what it is.
constexpr std::size_t kick_work = 20'000'000, work_a_look = 30, work_a_place = 4;

/// Stops moved: [first, last], to before `to`, and whether they are turned round.
struct Insertion {
  double gain = least_gain;
  std::size_t first = 0, last = 0, to = 0, place = 0;
  bool turned = false;
};

class TourSearch {
 public:
  TourSearch(const TourTask& task, std::vector<Visit>& tour)
      : task_(task), near_(task), open_(task, tour), waits_(task.stops.size(), false), result_(tour) {
    for (const Stop& stop : task.stops) {
      Bounds box;
      for (const Point place : stop.places) box.add(place);
      across_.push_back(leap({box.left, box.bottom}, {box.right, box.top}));
    }
  }

  void run() {
    for (std::size_t i = 0; i < open_.size(); ++i) look_again(i);
    mend();
    kick_about();
    result_ = open_.visits();
  }

 private:
  void kick_about() {
    const std::size_t count = open_.size();
    if (count < 8) return;
    Lots lots(17);  // the same in every run
    const std::size_t longest = std::min(longest_kick, count / 3), most = open_.work() + looks_ + kick_work;
    for (std::size_t kick = 0; kick < kicks_besides + kicks_a_stop * count && open_.work() + looks_ < most; ++kick) {
      const std::size_t one = 1 + lots.below(longest), two = 1 + lots.below(longest);
      const std::size_t first = lots.below(count - one - two + 1), middle = first + one, end = middle + two;
      if (!open_.may_swap(first, middle, end)) continue;
      open_.keep();
      gained_ = 0;
      swap(first, middle, end);
      for (const std::size_t cut : {first, first + two, end}) look_about(cut);
      mend();
      if (gained_ < 0) open_.take_back();
    }
  }

  void look_again(std::size_t position) {
    if (position >= open_.size()) return;
    const std::size_t stop = open_.stop_at(position);
    if (waits_[stop]) return;
    waits_[stop] = true;
    queue_.push_back(stop);
  }
  /// The stops on both sides of where something was changed.
  void look_about(std::size_t position) {
    if (position > 0) look_again(position - 1);
    look_again(position);
  }

  void mend() {
    for (std::size_t next = 0; next < queue_.size(); ++next) {
      const std::size_t stop = queue_[next];
      waits_[stop] = false;
      looks_ += work_a_look + work_a_place * task_.stops[stop].places.size();
      while (place_better(stop) || turn_something(stop) || move_something(stop)) {
      }
    }
    queue_.clear();
  }

  void turn(std::size_t first, std::size_t last, double gain) {
    open_.turn(first, last);
    gained_ += gain;
    look_about(first);
    look_about(last + 1);
  }

  void swap(std::size_t first, std::size_t middle, std::size_t end) {
    gained_ += open_.from_before(first, open_.begin_at(first)) +
               leap(open_.end_at(middle - 1), open_.begin_at(middle)) + open_.to_after(end - 1, open_.end_at(end - 1));
    open_.swap(first, middle, end);
    const std::size_t cut = first + (end - middle);
    gained_ -= open_.from_before(first, open_.begin_at(first)) + leap(open_.end_at(cut - 1), open_.begin_at(cut)) +
               open_.to_after(end - 1, open_.end_at(end - 1));
  }

  /// Another place of the stop, where it stands.
  bool place_better(std::size_t stop) {
    const Stop& what = task_.stops[stop];
    if (!what.returns || what.places.size() < 2 || what.places.size() > most_places_tried) return false;
    const std::size_t at = open_.position_of(stop);
    const auto cost = [&](Point p) { return open_.from_before(at, p) + open_.to_after(at, p); };
    const double now = cost(open_.begin_at(at));
    double least = now - least_gain;
    std::size_t best = open_.place_at(at);
    for (std::size_t place = 0; place < what.places.size(); ++place) {
      if (const double way = cost(what.places[place]); way < least) least = way, best = place;
    }
    if (best == open_.place_at(at)) return false;
    open_.begin_at_place(at, best);
    gained_ += now - least;
    look_about(at);
    look_again(at + 1);
    return true;
  }

  bool turn_gains(std::size_t first, std::size_t last) {
    const double gain = open_.from_before(first, open_.begin_at(first)) + open_.to_after(last, open_.end_at(last)) -
                        open_.from_before(first, open_.end_at(last)) - open_.to_after(last, open_.begin_at(first));
    if (!(gain > least_gain) || !open_.may_turn(first, last)) return false;
    turn(first, last, gain);
    return true;
  }

  /// 2-opt: a stretch is turned round so that the stop comes to stand beside one that is near it.
  bool turn_something(std::size_t stop) {
    const std::size_t here = open_.position_of(stop);
    if (turn_gains(here, here) || turn_gains(here, open_.size() - 1) || turn_gains(0, here)) return true;
    return std::ranges::any_of(near_.of(stop), [&](std::size_t other) {
      const std::size_t there = open_.position_of(other), first = std::min(here, there), second = std::max(here, there);
      return turn_gains(first + 1, second) || turn_gains(first, second - 1);
    });
  }

  /// Or-opt: a few stops from this one on are moved between near ones.
  bool move_something(std::size_t stop) {
    const std::size_t here = open_.position_of(stop);
    Insertion best;
    for (std::size_t count = 1; count <= longest_moved; ++count) {
      if (here + count <= open_.size()) look_for_room(here, here + count - 1, best);
      if (count > 1 && here + 1 >= count) look_for_room(here + 1 - count, here, best);
    }
    if (!(best.gain > least_gain)) return false;
    insert(best);
    return true;
  }

  void look_for_room(std::size_t first, std::size_t last, Insertion& best) {
    if (last - first + 1 >= open_.size()) return;
    const Point begin = open_.begin_at(first), end = open_.end_at(last);
    double bridge = 0;
    if (first > 0) {
      bridge = open_.to_after(last, open_.end_at(first - 1));
    } else if (task_.ends.from) {
      bridge = open_.to_after(last, *task_.ends.from);
    }
    const double freed = open_.from_before(first, begin) + open_.to_after(last, end) - bridge;
    if (!(freed > best.gain)) return;
    for (const std::size_t edge : {first, last}) {
      for (const std::size_t other : near_.of(open_.stop_at(edge))) {
        const std::size_t there = open_.position_of(other);
        if (there >= first && there <= last) continue;
        weigh(first, last, there, freed, best);
        weigh(first, last, there + 1, freed, best);
      }
      if (first == last) break;
    }
  }

  /// The stops between what stands before `to` and what stands there now.
  void weigh(std::size_t first, std::size_t last, std::size_t to, double freed, Insertion& best) {
    if (to >= first && to <= last + 1) return;
    std::optional<Point> left = task_.ends.from, right = task_.ends.to;
    if (to > 0) left = open_.end_at(to - 1);
    if (to < open_.size()) right = open_.begin_at(to);
    const double joined = left && right ? leap(*left, *right) : 0;
    const auto cost = [&](Point begin, Point end) {
      return (left ? leap(*left, begin) : 0) + (right ? leap(end, *right) : 0) - joined;
    };
    const auto offer = [&](double gain, std::size_t place, bool turned) {
      if (!(gain > best.gain) || !may_move(first, last, to, turned)) return;
      best = {gain, first, last, to, place, turned};
    };
    const Point begin = open_.begin_at(first), end = open_.end_at(last);
    const std::size_t place = open_.place_at(first);
    offer(freed - cost(begin, end), place, false);
    const Stop& one = task_.stops[open_.stop_at(first)];
    if (first < last || !one.returns) return offer(freed - cost(end, begin), place, true);
    if (freed - cost(begin, begin) + 2 * across_[open_.stop_at(first)] <= best.gain)
      return;  // no place is so much nearer
    for (std::size_t other = 0; other < std::min(one.places.size(), most_places_tried); ++other) {
      offer(freed - cost(one.places[other], one.places[other]), other, false);
    }
  }

  [[nodiscard]] bool may_move(std::size_t first, std::size_t last, std::size_t to, bool turned) const {
    if (turned && !open_.may_turn(first, last)) return false;
    return to < first ? open_.may_swap(to, first, last + 1) : open_.may_swap(first, last + 1, to);
  }

  void insert(const Insertion& best) {
    if (best.place != open_.place_at(best.first)) open_.begin_at_place(best.first, best.place);
    if (best.turned) open_.turn(best.first, best.last);
    gained_ += best.gain;
    if (best.to < best.first) {
      open_.swap(best.to, best.first, best.last + 1);
    } else {
      open_.swap(best.first, best.last + 1, best.to);
    }
    const std::size_t low = std::min(best.to, best.first), high = std::max(best.to, best.last + 1);
    const std::size_t count = best.last - best.first + 1;
    for (const std::size_t cut : {low, low + count, high - count, high}) look_about(std::min(cut, open_.size()));
  }

  const TourTask& task_;
  NearStops near_;
  OpenTour open_;
  std::vector<double> across_;  // by stop: no two of its places are farther apart
  std::vector<bool> waits_;
  std::vector<std::size_t> queue_;
  double gained_ = 0;
  std::size_t looks_ = 0;
  std::vector<Visit>& result_;
};

}  // namespace

void shorten(const TourTask& task, std::vector<Visit>& tour) {
  if (tour.size() < 2) return;
  TourSearch(task, tour).run();
}

}  // namespace ordinatio::inline machine
