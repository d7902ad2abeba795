#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "fit/fit.h"

namespace ordinatio {
namespace {

// The programmes are solved in a unit in which the region measures about 1, so these are shares of its
// diameter.
constexpr double satisfied = 1e-13;  // a row violated by less holds: rounding in rows of a few terms
constexpr double flat = 1e-14;       // a row whose coefficients are all smaller says nothing about the unknowns
constexpr double far = 8;            // box around every solution: shifts stay within the region, the scale is normed
// The best scale is given up by this share before the place is chosen, so that the places that reach it form
// a polygon wider than rounding. 1e-11 of 100 mm is a ten-millionth of what is written.
constexpr double room_to_place = 1e-11;

template <std::size_t D>
using Vector = std::array<double, D>;
template <std::size_t D>
struct Row {
  Vector<D> normal;
  double offset;  // normal·x ≤ offset
};
template <std::size_t D>
double product(const Vector<D>& a, const Vector<D>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < D; ++i) sum += a[i] * b[i];
  return sum;
}

/// The x in the box |xᵢ| ≤ far that satisfies all rows and maximises objective·x, or nothing (Seidel 1991):
/// rows are taken one by one; where the optimum so far breaks a row, the new one lies on that row's plane, a
/// programme of one unknown less. Expected O(rows) when the rows come in random order.
template <std::size_t D>
std::optional<Vector<D>> maximise(const Vector<D>& objective, const std::vector<Row<D>>& rows) {
  Vector<D> best;
  for (std::size_t i = 0; i < D; ++i) best[i] = objective[i] >= 0 ? far : -far;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const Row<D>& row = rows[at];
    if (product(row.normal, best) <= row.offset + satisfied) continue;
    std::size_t pivot = 0;
    for (std::size_t i = 1; i < D; ++i) {
      if (std::abs(row.normal[i]) > std::abs(row.normal[pivot])) pivot = i;
    }
    if (std::abs(row.normal[pivot]) < flat) return std::nullopt;  // 0 ≤ a negative number
    // x[pivot] = (offset − Σ others) / normal[pivot], put into everything that came before.
    const auto reduced = [&](const Vector<D>& normal, double offset) {
      const double share = normal[pivot] / row.normal[pivot];
      Row<D - 1> result{{}, offset - share * row.offset};
      for (std::size_t i = 0, j = 0; i < D; ++i) {
        if (i != pivot) result.normal[j++] = normal[i] - share * row.normal[i];
      }
      return result;
    };
    std::vector<Row<D - 1>> before;
    before.reserve(at + 2);
    Vector<D> axis{};
    axis[pivot] = 1;
    before.push_back(reduced(axis, far));
    axis[pivot] = -1;
    before.push_back(reduced(axis, far));
    for (std::size_t i = 0; i < at; ++i) before.push_back(reduced(rows[i].normal, rows[i].offset));
    const auto lower = maximise<D - 1>(reduced(objective, 0).normal, before);
    if (!lower) return std::nullopt;
    double rest = row.offset;
    for (std::size_t i = 0, j = 0; i < D; ++i) {
      if (i == pivot) continue;
      best[i] = (*lower)[j++];
      rest -= row.normal[i] * best[i];
    }
    best[pivot] = rest / row.normal[pivot];
  }
  return best;
}

/// One unknown: an interval.
template <>
std::optional<Vector<1>> maximise<1>(const Vector<1>& objective, const std::vector<Row<1>>& rows) {
  double low = -far, high = far;
  for (const Row<1>& row : rows) {
    const double a = row.normal[0];
    if (std::abs(a) < flat) {
      if (row.offset < -satisfied) return std::nullopt;
    } else if (a > 0) {
      high = std::min(high, row.offset / a);
    } else {
      low = std::max(low, row.offset / a);
    }
  }
  if (low > high + satisfied) return std::nullopt;
  return Vector<1>{objective[0] >= 0 ? high : low};
}

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
                             const Wish& wish) {
  if (bounds.empty() || region.edges.empty()) return std::nullopt;
  Normed n;
  n.region_middle = wish.target;
  double reach = 0;
  for (const HalfPlane& edge : region.edges) {
    reach = std::max(reach, std::abs(edge.offset - dot(edge.normal, wish.target)));
  }
  n.region_size = std::max(reach, 1e-9);
  // A convex set touches all four sides of its bounds, and so holds their centre: no support about it is negative.
  n.hull_middle = bounds.centre();
  n.hull_size = std::max({bounds.width(), bounds.height(), 1e-9});
  n.rows = fit_rows(support, region);
  for (FitRow& row : n.rows) {
    row.support = (row.support - dot(row.normal, n.hull_middle)) / n.hull_size;
    row.offset = (row.offset - dot(row.normal, n.region_middle)) / n.region_size;
  }
  // Seidel's bound wants a random order; a fixed seed keeps the output the same on every run.
  std::shuffle(n.rows.begin(), n.rows.end(), std::minstd_rand(1));
  n.anchor = 1 / n.hull_size * (wish.anchor - n.hull_middle);
  n.largest = wish.largest * n.hull_size / n.region_size;
  return n;
}

/// The scale that the rows leave at a given shift; support is nowhere negative.
double scale_at(const std::vector<FitRow>& rows, Point shift, double largest) {
  double scale = largest;
  for (const FitRow& row : rows) {
    if (row.support > 0) scale = std::min(scale, (row.offset - dot(row.normal, shift)) / row.support);
  }
  return scale;
}

/// The best scale with the anchor held on the axis: unknowns are the scale and the height.
double best_scale_on_axis(const Normed& n) {
  std::vector<Row<2>> rows{{{1, 0}, n.largest}};
  for (const FitRow& row : n.rows) {
    rows.push_back({{row.support - row.normal.x * n.anchor.x, row.normal.y}, row.offset});
  }
  const auto best = maximise<2>({1, 0}, rows);
  return best ? (*best)[0] : 0;
}

double best_scale(const Normed& n) {
  std::vector<Row<3>> rows{{{1, 0, 0}, n.largest}};
  for (const FitRow& row : n.rows) rows.push_back({{row.support, row.normal.x, row.normal.y}, row.offset});
  const auto best = maximise<3>({1, 0, 0}, rows);
  return best ? std::min((*best)[0], scale_at(n.rows, {(*best)[1], (*best)[2]}, n.largest)) : 0;
}

/// Of the shifts that leave room for `scale`, the one whose anchor is nearest to the axis, then to the
/// middle.
std::optional<Point> nearest_shift(const Normed& n, double scale) {
  std::vector<Row<2>> rows;
  for (const FitRow& row : n.rows) rows.push_back({{row.normal.x, row.normal.y}, row.offset - scale * row.support});
  const Point wanted = -scale * n.anchor;  // the target is the origin
  const auto right = maximise<2>({1, 0}, rows), left = maximise<2>({-1, 0}, rows);
  if (!right || !left) return std::nullopt;
  const double x = std::clamp(wanted.x, std::min((*left)[0], (*right)[0]), (*right)[0]);
  std::vector<Row<1>> across;
  for (const Row<2>& row : rows) across.push_back({{row.normal[1]}, row.offset - row.normal[0] * x});
  const auto up = maximise<1>({1}, across), down = maximise<1>({-1}, across);
  if (!up || !down) return Point{x, (*right)[1]};  // a single point, and rounding has closed it
  return Point{x, std::clamp(wanted.y, std::min((*down)[0], (*up)[0]), (*up)[0])};
}

}  // namespace

double support_of(const ConvexHull& hull, Point normal) {
  double support = -1e300;
  for (const Point p : hull.vertices) support = std::max(support, dot(normal, p));
  return support;
}

std::vector<FitRow> fit_rows(const Support& support, const ConvexRegion& region) {
  std::vector<FitRow> rows;
  rows.reserve(region.edges.size());
  for (const HalfPlane& edge : region.edges) rows.push_back({support(edge.normal), edge.normal, edge.offset});
  return rows;
}

std::optional<Placement> largest_copy(const ConvexHull& hull, const ConvexRegion& region, const Wish& wish) {
  Bounds bounds;
  for (const Point p : hull.vertices) bounds.add(p);
  return largest_copy([&hull](Point normal) { return support_of(hull, normal); }, bounds, region, wish);
}

std::optional<Placement> largest_copy(const Support& support, const Bounds& bounds, const ConvexRegion& region,
                                      const Wish& wish) {
  const auto n = normed(support, bounds, region, wish);
  if (!n) return std::nullopt;
  const double free = best_scale(*n);
  const double held = wish.off_axis_gain < 0 ? 0 : best_scale_on_axis(*n);
  const bool stays = held > 0 && free <= held * (1 + std::max(wish.off_axis_gain, 0.0));
  const double scale = (stays ? std::min(held, free) : free) * (1 - room_to_place);
  if (!(scale > 0)) return std::nullopt;
  const auto shift = nearest_shift(*n, scale);
  if (!shift) return std::nullopt;
  const double sure = std::min(scale, scale_at(n->rows, *shift, n->largest));
  const double size = sure * n->region_size / n->hull_size;
  return Placement{size, n->region_middle + n->region_size * *shift - size * n->hull_middle};
}

}  // namespace ordinatio
