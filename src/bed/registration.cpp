#include "bed/registration.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ordinatio::inline bed {
namespace {

using Model = Registration::Model;

constexpr double farthest = 1e5;     // mm: ten times the longest bed; a place beyond it is a slip of the pen
constexpr double least_spread = 1;   // mm: marks that lie nearer together tell no turn that a hand could measure
constexpr double flattest = 1e-3;    // breadth by length: a triangle flatter than that fixes nothing across
constexpr double mirror_misfit = 1;  // mm, root mean square: below it marks are in their order, and only noisy
constexpr double much_better = 4;    // times less, the squares: what a mirrored fit must come to, to be told as one

Fault point_fault(const std::string& what, const std::string& why, const std::string& mend) {
  return {what, "", why, mend};
}

/// Sums over points less their middles: of squares, and of products drawn × measured.
struct Sums {
  Point drawn_middle, measured_middle;
  double drawn = 0, measured = 0;                                       // Σ|p|², Σ|q|²
  double xx = 0, xy = 0, yx = 0, yy = 0;                                // Σ q·pᵀ: xy is Σ q.x p.y
  double along = 0, across = 0, both = 0;                               // Σ p.x², Σ p.y², Σ p.x p.y
  [[nodiscard]] Point turning() const { return {xx + yy, yx - xy}; }    // gain · (cos, sin) of the best turn
  [[nodiscard]] Point mirroring() const { return {xx - yy, yx + xy}; }  // the same, mirrored first
};

Point middle_of(const std::vector<Point>& points) {
  Point sum;
  for (const Point p : points) sum = sum + p;
  return 1 / static_cast<double>(points.size()) * sum;
}

Sums sums_of(const std::vector<Point>& drawn, const std::vector<Point>& measured) {
  Sums sums;
  sums.drawn_middle = middle_of(drawn), sums.measured_middle = middle_of(measured);
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const Point p = drawn[i] - sums.drawn_middle, q = measured[i] - sums.measured_middle;
    sums.drawn += dot(p, p), sums.measured += dot(q, q);
    sums.xx += q.x * p.x, sums.xy += q.x * p.y, sums.yx += q.y * p.x, sums.yy += q.y * p.y;
    sums.along += p.x * p.x, sums.across += p.y * p.y, sums.both += p.x * p.y;
  }
  return sums;
}

/// Whether the points lie in one line: the axes of their scatter, whose squares are its eigenvalues, tell.
bool in_one_line(const std::vector<Point>& points) {
  const Sums s = sums_of(points, points);
  const double half = (s.along + s.across) / 2;
  const double apart = std::hypot((s.along - s.across) / 2, s.both);
  return half - apart <= flattest * flattest * (half + apart);
}

bool in_one_place(const std::vector<Point>& points) {
  return std::ranges::all_of(points, [&](Point p) { return length(p - points.front()) < least_spread; });
}

bool out_of_bounds(const std::vector<Point>& points) {
  return !std::ranges::all_of(points, [](Point p) { return std::abs(p.x) <= farthest && std::abs(p.y) <= farthest; });
}

MaybeFault check_spread(const std::vector<Point>& points, const std::string& which, Model model) {
  if (out_of_bounds(points)) {
    return point_fault("a " + which + " point is no place on a bed", "its numbers are out of all bounds",
                       "Give each as x,y in mm from the bed's lower-left corner");
  }
  if (in_one_place(points)) {
    return point_fault("the " + which + " points lie in one place", "no turn can be told from them",
                       "Give points that lie well apart");
  }
  if (model == Model::affine && in_one_line(points)) {
    return point_fault("the " + which + " points lie in one line",
                       "nothing can be told from them of what lies across it",
                       "Give points that do not lie in one line, or allow less than affine");
  }
  return std::nullopt;
}

MaybeFault check_points(const std::vector<Point>& drawn, const std::vector<Point>& measured, Model model) {
  const std::size_t least = model == Model::affine ? 3 : 2;
  if (drawn.size() != measured.size() || drawn.size() < least) {
    return point_fault(std::to_string(measured.size()) + " measured points are not enough",
                       "at least " + std::to_string(least) + " are needed, one for each that is drawn",
                       "Measure more of them, or allow less");
  }
  if (auto fault = check_spread(drawn, "drawn", model)) return fault;
  return check_spread(measured, "measured", model);
}

/// What is left of the squares after the best turn, or the best mirrored one, whose gain is given.
double squares_left(const Sums& sums, double gain, Model model) {
  const double left =
      model == Model::rigid ? sums.drawn + sums.measured - 2 * gain : sums.measured - gain * gain / sums.drawn;
  return std::max(left, 0.0);
}

/// Whether three or more points fit far better mirrored than turned.
bool is_mirrored(const Sums& sums, std::size_t count, Model model) {
  if (count < 3) return false;
  const double turned = squares_left(sums, length(sums.turning()), model);
  const double mirrored = squares_left(sums, length(sums.mirroring()), model);
  return turned > static_cast<double>(count) * mirror_misfit * mirror_misfit && mirrored < turned / much_better;
}

Transform about_middles(Transform linear, const Sums& sums) {
  const Point shift = sums.measured_middle - linear(sums.drawn_middle);
  linear.dx = shift.x, linear.dy = shift.y;
  return linear;
}

Transform best_turn(const Sums& sums, Model model) {
  const Point turning = sums.turning();
  const double scale = 1 / (model == Model::rigid ? length(turning) : sums.drawn);
  return about_middles({scale * turning.x, scale * turning.y, -scale * turning.y, scale * turning.x, 0, 0}, sums);
}

/// The normal equations: A = (Σ q·pᵀ)(Σ p·pᵀ)⁻¹.
Transform best_affine(const Sums& s) {
  const double determinant = s.along * s.across - s.both * s.both;
  return about_middles(
      {(s.xx * s.across - s.xy * s.both) / determinant, (s.yx * s.across - s.yy * s.both) / determinant,
       (s.xy * s.along - s.xx * s.both) / determinant, (s.yy * s.along - s.yx * s.both) / determinant, 0, 0},
      s);
}

Fault mirror_fault() {
  return point_fault("the measured points fit only when they are mirrored", "a piece or a board does not mirror itself",
                     "Give them in the order in which they are drawn, x before y");
}

void judge(Registration& registration) {
  double squares = 0;
  for (std::size_t i = 0; i < registration.drawn.size(); ++i) {
    const Point residual = registration.measured[i] - registration.to_bed(registration.drawn[i]);
    registration.residuals.push_back(residual);
    squares += dot(residual, residual);
  }
  const std::size_t count = registration.drawn.size();
  registration.root_mean_square = std::sqrt(squares / static_cast<double>(count));
  registration.redundancy = 2 * static_cast<int>(count) - unknowns_of(registration.model);
}

}  // namespace

Result<Registration> register_points(const std::vector<Point>& drawn, const std::vector<Point>& measured,
                                     Registration::Model model) {
  if (auto fault = check_points(drawn, measured, model)) return *std::move(fault);
  const Sums sums = sums_of(drawn, measured);
  // Without any turn that fits better than its opposite, none may be chosen: only a mirrored set does that.
  const bool no_turn = model != Model::affine && !(length(sums.turning()) > 1e-9 * sums.drawn);
  if (no_turn || is_mirrored(sums, drawn.size(), model)) return mirror_fault();
  Registration registration{model, drawn, measured, {}, {}, 0, 0};
  registration.to_bed = model == Model::affine ? best_affine(sums) : best_turn(sums, model);
  if (!(registration.to_bed.determinant() > 0)) return mirror_fault();
  judge(registration);
  return registration;
}

int unknowns_of(Registration::Model model) { return model == Model::rigid ? 3 : model == Model::similar ? 4 : 6; }

double worst_residual(const Registration& registration) {
  double worst = 0;
  for (const Point residual : registration.residuals) worst = std::max(worst, length(residual));
  return worst;
}

std::string unseen_by(const Registration& registration) {
  const std::size_t count = registration.drawn.size();
  const std::string points = std::to_string(count) + " points";
  if (registration.redundancy == 0) {
    return points + (count == 2 ? " fix turn, scale and shift" : " fix an affine correction") +
           " exactly: nothing is left over whatever was measured, so a slip in measuring them does not show";
  }
  if (count == 2) {
    return "2 points show whether their distance is right; a slip across the line between them does not show";
  }
  // With two equations to spare, all residuals are one vector times fixed weights, whichever point slipped.
  if (registration.redundancy <= 2) return points + " show that one of them slipped, but not which";
  return "";
}

double turn_of(const Transform& t) { return std::atan2(t.yx - t.xy, t.xx + t.yy) * 180 / std::numbers::pi; }

std::pair<double, double> scales_of(const Transform& t) {
  // The singular values of a 2 × 2 matrix are the sum and the difference of its turning and its mirroring part.
  const double turning = std::hypot(t.xx + t.yy, t.yx - t.xy) / 2, mirroring = std::hypot(t.xx - t.yy, t.yx + t.xy) / 2;
  return {std::abs(turning - mirroring), turning + mirroring};
}

Transform inverse(const Transform& t) {
  const double d = t.determinant();
  if (!(std::abs(d) > 0) || !std::isfinite(d)) throw std::domain_error("a transform that has no inverse");
  return {t.yy / d, -t.yx / d, -t.xy / d, t.xx / d, (t.xy * t.dy - t.yy * t.dx) / d, (t.yx * t.dx - t.xx * t.dy) / d};
}

}  // namespace ordinatio::inline bed
