#include <algorithm>

#include "machine/tour_search.h"

namespace ordinatio::inline machine {
namespace {

auto at(auto& list, std::size_t place) { return list.begin() + static_cast<std::ptrdiff_t>(place); }

}  // namespace

OpenTour::OpenTour(const TourTask& task, const std::vector<Visit>& tour)
    : task_(task), position_(task.stops.size()), later_(task.precedence.empty() ? 0 : task.stops.size()) {
  placed_.reserve(tour.size());
  for (const Visit visit : tour) {
    placed_.push_back({begin_of(task, visit), end_of(task, visit), static_cast<std::uint32_t>(visit.stop),
                       static_cast<std::uint32_t>(visit.place)});
  }
  number(0, placed_.size());
  for (const auto& [first, second] : task.precedence) later_[first].push_back(second);
}

void OpenTour::number(std::size_t first, std::size_t end) {
  for (std::size_t i = first; i < end; ++i) position_[placed_[i].stop] = i;
}

bool OpenTour::may_turn(std::size_t first, std::size_t last) const {
  if (later_.empty()) return true;
  for (std::size_t i = first; i < last; ++i) {
    for (const std::size_t later : later_[placed_[i].stop]) {
      if (position_[later] <= last) return false;
    }
  }
  return true;
}

bool OpenTour::may_swap(std::size_t first, std::size_t middle, std::size_t end) const {
  if (later_.empty()) return true;
  for (std::size_t i = first; i < middle; ++i) {
    for (const std::size_t later : later_[placed_[i].stop]) {
      if (position_[later] >= middle && position_[later] < end) return false;
    }
  }
  return true;
}

void OpenTour::do_turn(std::size_t first, std::size_t last) {
  work_ += last + 1 - first;
  std::reverse(at(placed_, first), at(placed_, last + 1));
  for (std::size_t i = first; i <= last; ++i) {
    Placed& placed = placed_[i];
    position_[placed.stop] = i;
    if (task_.stops[placed.stop].returns) continue;
    std::swap(placed.begin, placed.end);
    placed.place = 1 - placed.place;
  }
}

void OpenTour::do_swap(std::size_t first, std::size_t middle, std::size_t end) {
  work_ += end - first;
  std::rotate(at(placed_, first), at(placed_, middle), at(placed_, end));
  number(first, end);
}

void OpenTour::do_place(std::size_t position, std::size_t place) {
  Placed& placed = placed_[position];
  placed.place = static_cast<std::uint32_t>(place);
  placed.begin = begin_of(task_, {placed.stop, place});
  placed.end = end_of(task_, {placed.stop, place});
}

void OpenTour::turn(std::size_t first, std::size_t last) {
  do_turn(first, last);
  done_.push_back({Change::Kind::turn, first, last, 0});
}

void OpenTour::swap(std::size_t first, std::size_t middle, std::size_t end) {
  do_swap(first, middle, end);
  done_.push_back({Change::Kind::swap, first, first + (end - middle), end});
}

void OpenTour::begin_at_place(std::size_t position, std::size_t place) {
  done_.push_back({Change::Kind::place, position, placed_[position].place, 0});
  do_place(position, place);
}

void OpenTour::take_back() {
  for (auto change = done_.rbegin(); change != done_.rend(); ++change) {
    if (change->kind == Change::Kind::turn) do_turn(change->first, change->middle);
    if (change->kind == Change::Kind::swap) do_swap(change->first, change->middle, change->end);
    if (change->kind == Change::Kind::place) do_place(change->first, change->middle);
  }
  done_.clear();
}

std::vector<Visit> OpenTour::visits() const {
  std::vector<Visit> visits;
  visits.reserve(placed_.size());
  for (const Placed& placed : placed_) visits.push_back({placed.stop, placed.place});
  return visits;
}

}  // namespace ordinatio::inline machine
