// The fit as a linear programme about the middle of things. Of this folder alone.
#pragma once

#include "fit/fit.h"
#include "fit/seidel.h"

namespace ordinatio::inline fit {

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
std::optional<Normed> normed(std::vector<FitRow> rows, const Bounds& bounds, const Wish& wish);
inline constexpr double hardly_away = 1e-3;  // mm; nearer to the middle nobody can see
double away_from_middle(const Placement& there, const Wish& wish);
/// A smaller copy is taken where it comes so many times nearer to the middle as it loses in height: a board that narrows a
/// hair, a letter's corner that slips under a stamp. Where lines fill the height, or a triangle, it is not.
inline constexpr double worthwhile_move = 10;
bool is_worth_it(const Placement& nearer, const Placement& largest, const Wish& wish, double height);
/// A row of the programme with the anchor held in the middle: its unknowns are the scale and the shift across, the second
/// without weight where the anchor is held on the axis too.
Row<2> row_in_middle(const FitRow& row, Point anchor, bool on_axis);
/// The scale that the rows leave at a given shift; support is nowhere negative.
double scale_at(const std::vector<FitRow>& rows, Point shift, double largest);
/// Of the shifts that satisfy all rows the nearest to the wanted one across, then upright.
std::optional<Point> nearest_shift(const std::vector<Row<2>>& rows, Point wanted);
/// The size and place in mm of a scale and a shift in the programme's unit, the scale cut down to what is sure.
Placement placed(const Normed& n, double scale, Point shift);

}  // namespace ordinatio::inline fit
