// In: points as they are drawn, and the same points as they were measured on the machine, mm.
// Out: the transform from the drawing to the bed that fits them best, and what is left at each point.
// Never: guesses which point is which, or mirrors. Of this folder alone.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline bed {

/// A drawing laid to what was measured, by least squares: the sum of the squared distances between the measured points
/// and where the transform takes the drawn ones is the least (Umeyama 1991, IEEE PAMI 13:376, in closed form for a plane).
struct Registration {
  /// What may differ: turn and shift; and one scale; or each axis and the angle between them besides.
  enum class Model { rigid, similar, affine } model = Model::rigid;
  std::vector<Point> drawn, measured;  // mm, one for one
  Transform to_bed;                    // mm → mm, never mirrored
  std::vector<Point> residuals;        // mm, at each point: the measured place less where the transform takes the drawn
  double root_mean_square = 0;         // mm, of the residuals' lengths
  int redundancy = 0;                  // equations beyond the unknowns, two a point: what is left to show a slip
};

/// Faults: fewer points than the model needs (two; three for affine), points in one place or, for affine, in one line,
/// what is not finite or out of all bounds, and points that fit only when mirrored: they were given in a wrong order.
Result<Registration> register_points(const std::vector<Point>& drawn, const std::vector<Point>& measured,
                                     Registration::Model model);
int unknowns_of(Registration::Model model);
double worst_residual(const Registration& registration);  // mm
/// What slips in measuring these points cannot show, in plain words; empty where a slip shows and where it is, too.
std::string unseen_by(const Registration& registration);

double turn_of(const Transform& transform);                       // degrees, of the nearest turn
std::pair<double, double> scales_of(const Transform& transform);  // the least and the greatest of any direction
Transform inverse(const Transform& transform);                    // throws std::domain_error where there is none

}  // namespace ordinatio::inline bed
