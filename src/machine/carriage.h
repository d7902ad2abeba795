// The carriage on its way over scan lines. Of this folder alone.
#pragma once

#include <span>

#include "machine/machine.h"
#include "machine/scan.h"

namespace ordinatio::inline machine {

/// Keeps where it is and how long it took. A line of ink w takes w/v + 2·v/a, run-up and run-out being v²/2a each (elementary
/// kinematics), longer ones at the steady speed besides. Between two spans it goes on at its speed, or runs out, travels and
/// runs up again where that is the shorter; so neighbours share a line where their gap is under 2·v²/a. To the next line it
/// goes from rest to rest, straight, and settles.
class Carriage {
 public:
  explicit Carriage(const Motion& motion);

  /// One line's ink, from left to right; not empty.
  void sweep(std::span<const Span> line, double y);
  [[nodiscard]] double seconds() const { return seconds_; }

 private:
  [[nodiscard]] double gap_time(double gap) const;

  const Motion* motion_;
  double run_, run_seconds_;  // mm, s: from rest to the speed, with what is steady of it
  Point at_;
  bool begun_ = false, to_the_left_ = false;
  double seconds_ = 0;
};

/// The shortest run-up.
double least_run_up(const Motion& motion);

}  // namespace ordinatio::inline machine
