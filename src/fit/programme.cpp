#include "fit/programme.h"

#include <random>

#include "fit/rectangle.h"

namespace ordinatio::inline fit {

namespace {

/// The best scale with the anchor held on the axis: unknowns are the scale and the height.
double best_scale_on_axis(const Normed& n) {
  std::vector<Row<2>> rows{{{1, 0}, n.largest}};
  for (const FitRow& row : n.rows) {
    rows.push_back({{row.support - row.normal.x * n.anchor.x, row.normal.y}, row.offset});
  }
  const auto best = maximise<2>({1, 0}, rows);
  return best ? (*best)[0] : 0;
}

/// The best scale with the anchor held in the middle: unknowns are the scale and, unless it is held on the axis, the shift
/// across.
double best_scale_in_middle(const Normed& n, bool on_axis) {
  std::vector<Row<2>> rows{{{1, 0}, n.largest}};
  for (const FitRow& row : n.rows) rows.push_back(row_in_middle(row, n.anchor, on_axis));
  const auto best = maximise<2>({1, 0}, rows);
  return best ? (*best)[0] : 0;
}

/// The anchor in the middle at a scale that has room there, as near to the axis as it goes.
Placement placement_in_middle(const Normed& n, double most, bool on_axis) {
  const double scale = most * (1 - room_to_place);
  Point shift = -scale * n.anchor;  // the target is the origin
  std::vector<Row<1>> rows;
  for (const FitRow& row : n.rows)
    rows.push_back({{row.normal.x}, row.offset - scale * row.support - row.normal.y * shift.y});
  const auto right = maximise<1>({1}, rows), left = maximise<1>({-1}, rows);
  // Where rounding has closed the single point that there is, placed() cuts the scale down.
  if (!on_axis && right && left) shift.x = std::clamp(shift.x, std::min((*left)[0], (*right)[0]), (*right)[0]);
  return placed(n, scale, shift);
}

double best_scale(const Normed& n) {
  std::vector<Row<3>> rows{{{1, 0, 0}, n.largest}};
  for (const FitRow& row : n.rows) rows.push_back({{row.support, row.normal.x, row.normal.y}, row.offset});
  const auto best = maximise<3>({1, 0, 0}, rows);
  return best ? std::min((*best)[0], scale_at(n.rows, {(*best)[1], (*best)[2]}, n.largest)) : 0;
}

/// As near to the axis as a scale goes, then to the middle.
std::optional<Placement> placement_at(const Normed& n, double most) {
  const double scale = most * (1 - room_to_place);
  std::vector<Row<2>> rows;
  for (const FitRow& row : n.rows) rows.push_back({{row.normal.x, row.normal.y}, row.offset - scale * row.support});
  const auto shift = nearest_shift(rows, -scale * n.anchor);  // the target is the origin
  return shift ? std::optional(placed(n, scale, *shift)) : std::nullopt;
}

}  // namespace

double away_from_middle(const Placement& there, const Wish& wish) {
  return std::abs(there(wish.anchor).y - wish.target.y);
}

bool is_worth_it(const Placement& nearer, const Placement& largest, const Wish& wish, double height) {
  const double moved = away_from_middle(largest, wish) - away_from_middle(nearer, wish);
  return moved > worthwhile_move * height * (largest.size - nearer.size);
}

Row<2> row_in_middle(const FitRow& row, Point anchor, bool on_axis) {
  const double held = row.normal.y * anchor.y + (on_axis ? row.normal.x * anchor.x : 0);
  return {{row.support - held, on_axis ? 0 : row.normal.x}, row.offset};
}

std::optional<Normed> normed(std::vector<FitRow> rows, const Bounds& bounds, const Wish& wish) {
  if (bounds.empty() || rows.empty()) return std::nullopt;
  Normed n;
  n.region_middle = wish.target;
  double reach = 0;
  for (const FitRow& row : rows) reach = std::max(reach, std::abs(row.offset - dot(row.normal, wish.target)));
  n.region_size = std::max(reach, 1e-9);
  // A convex set touches all four sides of its bounds, and so holds their centre: no support about it is negative.
  n.hull_middle = bounds.centre();
  n.hull_size = std::max({bounds.width(), bounds.height(), 1e-9});
  n.rows = std::move(rows);
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

double scale_at(const std::vector<FitRow>& rows, Point shift, double largest) {
  double scale = largest;
  for (const FitRow& row : rows) {
    if (row.support > 0) scale = std::min(scale, (row.offset - dot(row.normal, shift)) / row.support);
  }
  return scale;
}

std::optional<Point> nearest_shift(const std::vector<Row<2>>& rows, Point wanted) {
  const auto right = maximise<2>({1, 0}, rows), left = maximise<2>({-1, 0}, rows);
  if (!right || !left) return std::nullopt;
  const double x = std::clamp(wanted.x, std::min((*left)[0], (*right)[0]), (*right)[0]);
  std::vector<Row<1>> across;
  across.reserve(rows.size());
  for (const Row<2>& row : rows) across.push_back({{row.normal[1]}, row.offset - row.normal[0] * x});
  const auto up = maximise<1>({1}, across), down = maximise<1>({-1}, across);
  if (!up || !down) return Point{x, (*right)[1]};  // a single point, and rounding has closed it
  return Point{x, std::clamp(wanted.y, std::min((*down)[0], (*up)[0]), (*up)[0])};
}

Placement placed(const Normed& n, double scale, Point shift) {
  const double size = std::min(scale, scale_at(n.rows, shift, n.largest)) * n.region_size / n.hull_size;
  return {size, n.region_middle + n.region_size * shift - size * n.hull_middle};
}

double support_of(const ConvexHull& hull, Point normal) {
  // Four at a time: none waits for the one before.
  constexpr std::size_t lanes = 4;
  std::array<double, lanes> most;
  most.fill(-1e300);
  const Polygon& corners = hull.vertices;
  std::size_t i = 0;
  for (; i + lanes <= corners.size(); i += lanes) {
    for (std::size_t k = 0; k < lanes; ++k) most[k] = std::max(most[k], dot(normal, corners[i + k]));
  }
  for (; i < corners.size(); ++i) most[0] = std::max(most[0], dot(normal, corners[i]));
  return std::ranges::max(most);
}

std::vector<FitRow> fit_rows(const Support& support, const ConvexRegion& region) {
  std::vector<FitRow> rows;
  rows.reserve(region.edges.size());
  for (const HalfPlane& edge : region.edges) rows.push_back({support(edge.normal), edge.normal, edge.offset});
  return rows;
}

std::optional<Placement> largest_copy(std::vector<FitRow> rows, const Bounds& bounds, const Wish& wish) {
  if (const auto room = rectangle_of(rows); room && are_of_box(rows, bounds))
    return largest_copy_in(*room, bounds, wish);
  const auto n = normed(std::move(rows), bounds, wish);
  if (!n) return std::nullopt;
  const double free = best_scale(*n);
  const double held = wish.off_axis_gain < 0 ? 0 : best_scale_on_axis(*n);
  const bool stays = held > 0 && free <= held * (1 + std::max(wish.off_axis_gain, 0.0));
  const double best = stays ? std::min(held, free) : free;
  if (!(best > 0)) return std::nullopt;
  const auto largest = placement_at(*n, best);
  if (!largest || wish.for_middle <= 0 || away_from_middle(*largest, wish) < hardly_away) return largest;
  const double least = best * (1 - wish.for_middle), middle = std::min(best, best_scale_in_middle(*n, stays));
  const auto nearer = middle >= least ? placement_in_middle(*n, middle, stays) : placement_at(*n, least);
  return nearer && is_worth_it(*nearer, *largest, wish, bounds.height()) ? nearer : largest;
}

}  // namespace ordinatio::inline fit
