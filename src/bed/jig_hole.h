// The hole of one pocket in a board. Of this folder alone.
#pragma once

#include <array>

#include "bed/bed.h"

namespace ordinatio::inline bed {

/// A hole as it is to be when it is cut: a box, and half discs beyond the middle of its two sides away from the datum
/// corner, for a finger to get under the piece. Bed mm.
struct Hole {
  int pocket = 0;
  Bounds box;
  Jig::Datum datum = Jig::Datum::lower_left;
  double notch_radius = 0;  // 0: none

  /// The notches' centres: on the side across from the datum, and on the side above or below it.
  [[nodiscard]] std::array<Point, 2> notches() const;
};

/// The hole that takes the frame's piece: as large as the pocket, and at least as large as the piece and the clearance;
/// its datum corner is the pocket's. Without notches.
Hole hole_for(const Frame& frame, const Pocket& pocket);

/// What the beam's middle follows: half the kerf inside the hole. Exact: sweeping a disc of the kerf along it cuts the
/// hole to its size, but for corners, which come out round by half the kerf. One contour, counter-clockwise, which begins
/// at the corner across from the datum, so that the beam's start mars no edge that pieces are pushed against.
Path cut_path(const Hole& hole, double kerf);

double distance(const Bounds& box, Point p);        // 0 inside
double distance(const Bounds& a, const Bounds& b);  // 0 where they touch or overlap
double distance(const Hole& hole, const Bounds& box);

}  // namespace ordinatio::inline bed
