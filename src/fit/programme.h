// The fit as a linear programme about the middle of things. Of this folder alone.
#pragma once

#include "fit/fit.h"
#include "fit/seidel.h"

namespace ordinatio {

// The best scale is given up by this share before the place is chosen, so that the places that reach it form
// a polygon wider than rounding. 1e-11 of 100 mm is a ten-millionth of what is written.
inline constexpr double room_to_place = 1e-11;

/// The programme with the hull about its own middle (so that its support is nowhere negative), the region
/// about a point near its middle, and both of size about 1.
struct Normed {
  std::vector<FitRow> rows;
  Point anchor;        // of the hull, from the hull's middle, in hull sizes
  Point target;        // from the region's middle, in region sizes
  double largest = 0;  // scale, in region sizes a hull size
  double hull_size = 1, region_size = 1;
  Point hull_middle, region_middle;
};

/// Nothing when there is no hull, or the target is not near any region that could be meant.
std::optional<Normed> normed(const Support& support, const Bounds& bounds, const ConvexRegion& region,
                             const Wish& wish);
/// The scale that the rows leave at a given shift; support is nowhere negative.
double scale_at(const std::vector<FitRow>& rows, Point shift, double largest);
/// Of the shifts that satisfy all rows the nearest to the wanted one across, then upright.
std::optional<Point> nearest_shift(const std::vector<Row<2>>& rows, Point wanted);
/// The size and place in mm of a scale and a shift in the programme's unit, the scale cut down to what is sure.
Placement placed(const Normed& n, double scale, Point shift);

}  // namespace ordinatio
