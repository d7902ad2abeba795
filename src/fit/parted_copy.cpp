#include <algorithm>
#include <limits>

#include "fit/parting_search.h"
#include "fit/programme.h"
#include "fit/setting_work.h"

namespace ordinatio::inline fit {
namespace {

// In the programme's unit, in which the region measures about 1.
constexpr double least_scale = 1e-9;  // a smaller copy is none: 0.1 µm in a region of 100 mm
constexpr double scale_tie = 1e-13, place_tie = 1e-12;
constexpr double near_enough = 1e-11;  // of places as near to the axis as this, the one nearest to the middle is taken

Bounds box_of_parts(std::span<const ConvexHull> parts) {
  Bounds box;
  for (const ConvexHull& part : parts) {
    for (const Point p : part.vertices) box.add(p);
  }
  return box;
}

std::vector<ConvexHull> in_unit(std::span<const ConvexHull> hulls, Point middle, double size) {
  std::vector<ConvexHull> result;
  for (const ConvexHull& hull : hulls) {
    if (hull.vertices.empty()) continue;
    ConvexHull& there = result.emplace_back();
    there.vertices.reserve(hull.vertices.size());
    for (const Point p : hull.vertices) there.vertices.push_back(1 / size * (p - middle));
  }
  return result;
}

/// The best scale anywhere: unknowns are the scale and the shift.
PartingAim free_scale(const Normed& n) {
  std::vector<Row<3>> region{{{1, 0, 0}, n.largest}};
  for (const FitRow& row : n.rows) region.push_back({{row.support, row.normal.x, row.normal.y}, row.offset});
  const auto best = [known = region.size(), all = region](
                        const std::vector<FitRow>& rows, std::size_t solved,
                        const PartedPlace* so_far) mutable -> std::optional<PartedPlace> {
    all.resize(known);
    for (const FitRow& row : rows) all.push_back({{row.support, row.normal.x, row.normal.y}, row.offset});
    const auto found = so_far == nullptr ? maximise<3>({1, 0, 0}, all)
                                         : maximise<3>({1, 0, 0}, all, known + solved,
                                                       {so_far->scale, so_far->shift.x, so_far->shift.y});
    if (!found) return std::nullopt;
    return PartedPlace{(*found)[0], (*found)[0], {(*found)[1], (*found)[2]}};
  };
  return {best, true, scale_tie};
}

/// The best scale with the anchor held on the axis: unknowns are the scale and the height.
PartingAim scale_on_axis(const Normed& n) {
  const Point anchor = n.anchor;
  const auto on_axis = [anchor](const FitRow& row) {
    return Row<2>{{row.support - row.normal.x * anchor.x, row.normal.y}, row.offset};
  };
  std::vector<Row<2>> region{{{1, 0}, n.largest}};
  for (const FitRow& row : n.rows) region.push_back(on_axis(row));
  const auto best = [known = region.size(), all = region, on_axis, anchor](
                        const std::vector<FitRow>& rows, std::size_t solved,
                        const PartedPlace* so_far) mutable -> std::optional<PartedPlace> {
    all.resize(known);
    for (const FitRow& row : rows) all.push_back(on_axis(row));
    const auto found = so_far == nullptr ? maximise<2>({1, 0}, all)
                                         : maximise<2>({1, 0}, all, known + solved, {so_far->scale, so_far->shift.y});
    if (!found) return std::nullopt;
    return PartedPlace{(*found)[0], (*found)[0], {-(*found)[0] * anchor.x, (*found)[1]}};
  };
  return {best, true, scale_tie};
}

/// The best scale with the anchor held in the middle, and on the axis where it stays there.
PartingAim scale_in_middle(const Normed& n, bool on_axis) {
  const Point anchor = n.anchor;
  std::vector<Row<2>> region{{{1, 0}, n.largest}};
  for (const FitRow& row : n.rows) region.push_back(row_in_middle(row, anchor, on_axis));
  const auto best = [known = region.size(), all = region, on_axis, anchor](
                        const std::vector<FitRow>& rows, std::size_t solved,
                        const PartedPlace* so_far) mutable -> std::optional<PartedPlace> {
    all.resize(known);
    for (const FitRow& row : rows) all.push_back(row_in_middle(row, anchor, on_axis));
    const auto found = so_far == nullptr ? maximise<2>({1, 0}, all)
                                         : maximise<2>({1, 0}, all, known + solved, {so_far->scale, so_far->shift.x});
    if (!found) return std::nullopt;
    const double scale = (*found)[0];
    return PartedPlace{scale, scale, {on_axis ? -scale * anchor.x : (*found)[1], -scale * anchor.y}};
  };
  return {best, true, scale_tie};
}

/// The place at one scale that is nearest to the wanted one across, then upright; or upright, then across. Worth is the
/// distance in the first of the two, less than nothing.
PartingAim nearest_place(const Normed& n, double scale, Point most_off, bool upright_first) {
  const auto turned = [upright_first](Point p) { return upright_first ? Point{p.y, p.x} : p; };
  const Point wanted = turned(-scale * n.anchor);  // the target is the origin
  const auto at_scale = [turned, scale](const FitRow& row) {
    const Point normal = turned(row.normal);
    return Row<2>{{normal.x, normal.y}, row.offset - scale * row.support};
  };
  std::vector<Row<2>> region;
  for (const FitRow& row : n.rows) region.push_back(at_scale(row));
  for (const double side : {-1.0, 1.0}) {
    region.push_back(at_scale({side * n.anchor.x, {side, 0}, most_off.x + near_enough}));
    region.push_back(at_scale({side * n.anchor.y, {0, side}, most_off.y + near_enough}));
  }
  const auto best = [region, at_scale, turned, wanted, scale](const std::vector<FitRow>& rows, std::size_t,
                                                              const PartedPlace*) -> std::optional<PartedPlace> {
    // The latest rows say most: taken first, they leave little to be mended.
    std::vector<Row<2>> all;
    all.reserve(rows.size() + region.size());
    for (std::size_t i = rows.size(); i-- > 0;) all.push_back(at_scale(rows[i]));
    all.insert(all.end(), region.begin(), region.end());
    const auto shift = nearest_shift(all, wanted);
    if (!shift) return std::nullopt;
    return PartedPlace{-std::abs(shift->x - wanted.x), scale, turned(*shift)};
  };
  return {best, false, place_tie};
}

/// The best scale by the rule of the wish, and whether it keeps to the axis; nothing when no copy fits.
struct ChosenScale {
  PartedPlace at;
  bool stays = false;
};
std::optional<ChosenScale> choose_scale(const Normed& n, const Wish& wish, PartingPairs& pairs, PartingCost& cost) {
  std::optional<PartedPlace> held;
  if (wish.off_axis_gain >= 0) held = best_parted(pairs, scale_on_axis(n), least_scale, cost);
  // Off the axis only what gains enough is of use, and nothing else is looked for.
  const double least = held ? held->scale * (1 + wish.off_axis_gain) : least_scale;
  if (const auto free = best_parted(pairs, free_scale(n), least, cost)) return ChosenScale{*free, false};
  if (!held) return std::nullopt;
  return ChosenScale{*held, true};
}

/// The same scale where it is more than `least`, else nothing.
std::optional<double> chosen_scale_over(double least, const Normed& n, const Wish& wish, PartingPairs& pairs,
                                        PartingCost& cost) {
  const bool has_axis = wish.off_axis_gain >= 0;
  std::optional<PartedPlace> held;
  if (has_axis) held = best_parted(pairs, scale_on_axis(n), least, cost);
  const double gaining = held ? held->scale * (1 + wish.off_axis_gain) : least;
  const auto free = best_parted(pairs, free_scale(n), gaining, cost);
  std::optional<double> scale;
  if (held) scale = held->scale;
  if (free) scale = free->scale;
  if (!free || held || !has_axis) return scale;
  // On the axis it is no more than the least; there it stays unless off it enough is gained.
  const double enough = std::max(free->scale / (1 + wish.off_axis_gain), least_scale);
  if (enough < least && best_parted(pairs, scale_on_axis(n), enough, cost)) scale.reset();
  return scale;
}

/// A scale, and whether it is one that has room in the middle.
struct WantedScale {
  double scale = 0;
  bool in_middle = false;
};

/// Of all places that leave room for the scale the one nearest to the axis, then to the middle; the other way round where
/// it has room in the middle.
Point choose_shift(const Normed& n, const ChosenScale& chosen, const WantedScale& wanted, double scale,
                   PartingPairs& pairs, PartingCost& cost) {
  const double anywhere = -1e300, free = 2 * far;
  Point most_off{chosen.stays ? 0 : free, wanted.in_middle ? 0 : free};
  const bool across_first = !chosen.stays;
  if (across_first && !wanted.in_middle) {
    const auto nearest = best_parted(pairs, nearest_place(n, scale, most_off, false), anywhere, cost);
    if (!nearest) return chosen.at.shift;  // rounding has closed the place that was found
    most_off.x = -nearest->worth;
  }
  const bool upright = !(across_first && wanted.in_middle);
  const auto nearest = best_parted(pairs, nearest_place(n, scale, most_off, upright), anywhere, cost);
  return nearest ? nearest->shift : chosen.at.shift;
}

/// The place at the chosen scale, or at one that is less for the middle's sake.
Placement placement_for(const Normed& n, const Wish& wish, double height, const ChosenScale& chosen,
                        PartingPairs& pairs, PartingCost& cost) {
  const auto placement_at = [&](const WantedScale& wanted) {
    const double scale = wanted.scale * (1 - room_to_place);
    return placed(n, scale, choose_shift(n, chosen, wanted, scale, pairs, cost));
  };
  const Placement largest = placement_at({chosen.at.scale, false});
  if (wish.for_middle <= 0 || away_from_middle(largest, wish) < hardly_away) return largest;
  const double least = chosen.at.scale * (1 - wish.for_middle);
  const auto middle = best_parted(pairs, scale_in_middle(n, chosen.stays), least, cost);
  const Placement nearer =
      placement_at(middle ? WantedScale{std::min(middle->scale, chosen.at.scale), true} : WantedScale{least, false});
  return is_worth_it(nearer, largest, wish, height) ? nearer : largest;
}

}  // namespace

std::optional<Placement> largest_copy_within(std::span<const ConvexHull> parts, const ClearArea& area, const Wish& wish,
                                             PartingCost& cost, const PartingTerms& terms) {
  const Support support = [parts](Point normal) {
    double most = -1e300;
    for (const ConvexHull& part : parts) most = std::max(most, support_of(part, normal));
    return most;
  };
  const Bounds bounds = box_of_parts(parts);
  std::vector<FitRow> rows = fit_rows(support, area.region);
  rows.insert(rows.end(), terms.rows.begin(), terms.rows.end());
  if (area.obstacles.empty()) return largest_copy(std::move(rows), bounds, wish);
  const auto n = normed(std::move(rows), bounds, wish);
  if (!n) return std::nullopt;
  PartingPairs pairs(in_unit(parts, n->hull_middle, n->hull_size),
                     in_unit(area.obstacles, n->region_middle, n->region_size), terms.allowed);
  const auto chosen = choose_scale(*n, wish, pairs, cost);
  std::optional<Placement> placement;
  if (chosen) {
    placement = placement_for(*n, wish, bounds.height(), *chosen, pairs, cost);
  }
  return placement;
}

std::optional<double> largest_size_over(double least, std::vector<FitRow> rows, const Bounds& bounds,
                                        std::span<const ConvexHull> parts, std::span<const ConvexHull> obstacles,
                                        const Wish& wish, PartingCost& cost, std::size_t allowed) {
  const auto n = normed(std::move(rows), bounds, wish);
  if (!n) return std::nullopt;
  const double unit = n->region_size / n->hull_size;
  PartingPairs pairs(in_unit(parts, n->hull_middle, n->hull_size), in_unit(obstacles, n->region_middle, n->region_size),
                     allowed);
  const auto scale = chosen_scale_over(std::max(least / unit, least_scale), *n, wish, pairs, cost);
  if (!scale) return std::nullopt;
  return *scale * (1 - room_to_place) * unit;
}

std::optional<Placement> largest_copy(std::span<const ConvexHull> parts, const ClearArea& area, const Wish& wish,
                                      PartingCost* cost) {
  PartingCost counted;
  const auto placement = largest_copy_within(parts, area, wish, counted, {std::numeric_limits<std::size_t>::max()});
  if (cost != nullptr) *cost = counted;
  return placement;
}

}  // namespace ordinatio::inline fit
