#include "machine/carriage.h"

#include <algorithm>

#include "machine/profile.h"

namespace ordinatio::inline machine {

double least_run_up(const Motion& motion) { return motion.scan_speed * motion.scan_speed / (2 * motion.acceleration); }

Carriage::Carriage(const Motion& motion)
    : motion_(&motion),
      run_(std::max(least_run_up(motion), motion.run_up.value_or(0))),
      run_seconds_(motion.scan_speed / motion.acceleration + (run_ - least_run_up(motion)) / motion.scan_speed) {}

double Carriage::gap_time(double gap) const {
  const double steady = gap / motion_->scan_speed;
  if (gap <= 2 * run_) return steady;
  return std::min(steady,
                  2 * run_seconds_ + rest_to_rest(gap - 2 * run_, motion_->travel_speed, motion_->acceleration));
}

void Carriage::sweep(std::span<const Span> line, double y) {
  Point from{line.front().from - run_, y}, to{line.back().to + run_, y};
  if (to_the_left_) std::swap(from, to);
  if (begun_) {
    seconds_ += rest_to_rest(length(from - at_), motion_->travel_speed, motion_->acceleration) + motion_->settle;
  }
  begun_ = true;
  seconds_ += 2 * run_seconds_;
  for (std::size_t i = 0; i < line.size(); ++i) {
    seconds_ += (line[i].to - line[i].from) / motion_->scan_speed;
    if (i > 0) seconds_ += gap_time(line[i].from - line[i - 1].to);
  }
  at_ = to;
  if (motion_->both_ways) to_the_left_ = !to_the_left_;
}

}  // namespace ordinatio::inline machine
