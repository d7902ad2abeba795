// Constant acceleration: the times of moves. Of this folder alone.
#pragma once

#include <span>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

/// From rest to rest: d/v + v/a where the speed is reached, d ≥ v²/a, else 2·√(d/a). Elementary kinematics.
double rest_to_rest(double distance, double speed, double acceleration);

/// How fast a corner between two edges is passed: on the circle that touches both of them, leaves the corner by
/// `rounding` at the most, and begins no further from it than half of either edge. With φ between the edges the first gives
/// R = δ·sin(φ/2) / (1 − sin(φ/2)), the second R = l/2·tan(φ/2) (both from the right triangle of corner, centre and point
/// of contact); v = √(a·R), since a circle takes v²/R (Huygens 1673, Horologium oscillatorium, part 5). Along a curve that
/// was parted into chords the second gives the curve's own radius.
struct CornerLimit {
  double speed = 0;  // mm/s
  double reach = 0;  // mm of either edge that the circle takes: R / tan(φ/2)
};
CornerLimit corner_limit(Point before, Point corner, Point after, double rounding, double acceleration);

/// From rest at the first point along the points to rest at the last: the speed is nowhere above `speed`, at no corner above
/// its own, and changes by the acceleration at the most. The trapezoid of each edge is exact.
/// On an edge that its corners' circles take for more than half, as on a curve's chords, it is as fast as the faster of the two
/// at the most.
double path_time(std::span<const Point> points, double speed, double acceleration, double rounding);

}  // namespace ordinatio::inline machine
