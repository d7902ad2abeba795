// A tour as the search changes it: by turning stretches round and swapping neighbouring ones, each of which can be taken back.
// Of this folder alone.
#pragma once

#include <cstdint>
#include <vector>

#include "machine/tour.h"

namespace ordinatio::inline machine {

class OpenTour {
 public:
  OpenTour(const TourTask& task, const std::vector<Visit>& tour);

  [[nodiscard]] std::size_t size() const { return placed_.size(); }
  [[nodiscard]] std::size_t position_of(std::size_t stop) const { return position_[stop]; }
  [[nodiscard]] std::size_t stop_at(std::size_t position) const { return placed_[position].stop; }
  [[nodiscard]] Point begin_at(std::size_t position) const { return placed_[position].begin; }
  [[nodiscard]] Point end_at(std::size_t position) const { return placed_[position].end; }
  /// mm from where what stands before the position ends to the point; 0 where the way begins anywhere.
  [[nodiscard]] double from_before(std::size_t position, Point to) const {
    if (position > 0) return leap(placed_[position - 1].end, to);
    return task_.ends.from ? leap(*task_.ends.from, to) : 0;
  }
  /// mm from the point to where what stands after the position begins.
  [[nodiscard]] double to_after(std::size_t position, Point from) const {
    if (position + 1 < size()) return leap(from, placed_[position + 1].begin);
    return task_.ends.to ? leap(from, *task_.ends.to) : 0;
  }

  /// Whether first to last, inclusive, may be turned round; whether [first, middle) may come behind [middle, end).
  [[nodiscard]] bool may_turn(std::size_t first, std::size_t last) const;
  [[nodiscard]] bool may_swap(std::size_t first, std::size_t middle, std::size_t end) const;
  void turn(std::size_t first, std::size_t last);
  void swap(std::size_t first, std::size_t middle, std::size_t end);
  void begin_at_place(std::size_t position, std::size_t place);
  [[nodiscard]] std::size_t place_at(std::size_t position) const { return placed_[position].place; }

  /// What is changed from now on can be taken back.
  void keep() { done_.clear(); }
  void take_back();

  [[nodiscard]] std::vector<Visit> visits() const;
  /// How many stops were moved so far.
  [[nodiscard]] std::size_t work() const { return work_; }

 private:
  struct Placed {
    Point begin, end;
    std::uint32_t stop, place;
  };
  struct Change {
    enum class Kind { turn, swap, place } kind;
    std::size_t first, middle, end;
  };
  void do_turn(std::size_t first, std::size_t last);
  void do_swap(std::size_t first, std::size_t middle, std::size_t end);
  void do_place(std::size_t position, std::size_t place);
  void number(std::size_t first, std::size_t end);

  const TourTask& task_;
  std::vector<Placed> placed_;
  std::vector<std::size_t> position_;  // by stop
  std::vector<std::vector<std::size_t>> later_;
  std::vector<Change> done_;
  std::size_t work_ = 0;
};

/// For each stop the stops with the nearest places.
class NearStops {
 public:
  explicit NearStops(const TourTask& task);
  [[nodiscard]] const std::vector<std::uint32_t>& of(std::size_t stop) const { return near_[stop]; }

 private:
  std::vector<std::vector<std::uint32_t>> near_;
};

}  // namespace ordinatio::inline machine
