#include "fit/parting.h"

#include <algorithm>

namespace ordinatio::inline fit {
namespace {

constexpr double same_direction = 1e-12;  // rad: edges of part and obstacle that are parallel make one edge of K
constexpr double same_scale = 1e-9;       // share: over less, a slope is rounding
constexpr double surely = 1e-12;          // share of a product: what is larger by more is so however it is rounded

Point middle_of(const Polygon& polygon) {
  Point sum;
  for (const Point p : polygon) sum = sum + p;
  return 1 / static_cast<double>(polygon.size()) * sum;
}

/// An edge on its way into K: its outward normal, and whose it is.
struct Side {
  Point normal;
  bool of_part;
  std::size_t start;  // vertex
};

/// By direction, from −x counter-clockwise.
bool comes_before(const Side& a, const Side& b) {
  const auto upper = [](Point n) { return n.y > 0 || (n.y == 0 && n.x > 0); };
  if (upper(a.normal) != upper(b.normal)) return upper(b.normal);
  return cross(a.normal, b.normal) > 0;
}

/// In that order. A convex polygon's follow one another by direction: they need only be turned round to the first.
std::vector<Side> sides_of(const Polygon& polygon, bool of_part) {
  std::vector<Side> sides;
  sides.reserve(polygon.size());
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point along = polygon[i + 1 < polygon.size() ? i + 1 : 0] - polygon[i];
    const double span = length(along);
    if (!(span > 0)) continue;
    const double turn = of_part ? -1 / span : 1 / span;  // K holds the part upside down
    sides.push_back({{turn * along.y, -turn * along.x}, of_part, i});
  }
  const auto does_not_follow = [](const Side& a, const Side& b) { return !comes_before(a, b); };
  const auto last = std::ranges::adjacent_find(sides, does_not_follow);
  if (last == sides.end()) return sides;
  std::vector<Side> turned(last + 1, sides.end());
  turned.insert(turned.end(), sides.begin(), last + 1);
  if (std::ranges::adjacent_find(turned, does_not_follow) == turned.end()) return turned;
  std::ranges::stable_sort(sides, comes_before);  // rounding has left two that are parallel
  return sides;
}

std::size_t first_vertex(const std::vector<Side>& sides, bool of_part) {
  const auto side = std::ranges::find(sides, of_part, &Side::of_part);
  return side == sides.end() ? 0 : side->start;
}

}  // namespace

Parting::Parting(const Polygon& part, const Polygon& obstacle)
    : part_middle_(middle_of(part)), obstacle_middle_(middle_of(obstacle)) {
  const std::vector<Side> of_obstacle = sides_of(obstacle, false), of_part = sides_of(part, true);
  std::vector<Side> sides(of_obstacle.size() + of_part.size());
  std::ranges::merge(of_obstacle, of_part, sides.begin(), comes_before);
  std::size_t at_obstacle = first_vertex(sides, false), at_part = first_vertex(sides, true);
  edges_.reserve(sides.size());
  for (const Side& side : sides) {
    const bool is_new = edges_.empty() || cross(edges_.back().normal, side.normal) > same_direction ||
                        dot(edges_.back().normal, side.normal) < 0;
    if (is_new) {
      edges_.push_back({side.normal,
                        dot(side.normal, obstacle[at_obstacle] - obstacle_middle_),
                        -dot(side.normal, part[at_part] - part_middle_),
                        {},
                        {}});
    }
    std::size_t& at = side.of_part ? at_part : at_obstacle;
    at = (side.start + 1) % (side.of_part ? part : obstacle).size();
    edges_.back().obstacle_corner = obstacle[at_obstacle] - obstacle_middle_;
    edges_.back().part_corner = part[at_part] - part_middle_;
  }
}

Parting::Gap Parting::widest_gap(double scale, Point shift) const {
  const Point u = shift - obstacle_middle_ + scale * part_middle_;
  Gap widest;
  for (std::size_t i = 0; i < edges_.size(); ++i) {
    const double width = dot(edges_[i].normal, u) - edges_[i].obstacle - scale * edges_[i].part;
    if (width > widest.width) widest = {width, i};
  }
  return widest;
}

FitRow Parting::row(Point normal, double offset, double rise) const {
  // u = t − o + s·p, so that n·u ≥ a + b·s is (b − n·p)·s − n·t ≤ −a − n·o.
  return {rise - dot(normal, part_middle_), {-normal.x, -normal.y}, -offset - dot(normal, obstacle_middle_)};
}

FitRow Parting::beyond(std::size_t edge) const {
  return row(edges_[edge].normal, edges_[edge].obstacle, edges_[edge].part);
}

FitRow Parting::left_of(Point direction) const { return row({-direction.y, direction.x}, 0, 0); }

Parting::Exits Parting::exits(Point direction, double least, double most) const {
  Exits nearest;
  const auto take = [](Exit& exit, double away, double along, std::size_t edge) {
    // A quotient takes longer than all else here: of most edges a product tells that they are further off.
    const double product = exit.reach * along;
    if (away > product + surely * std::abs(product)) return;
    const double reach = away / along;
    if (reach < exit.reach) exit = {reach, edge};
  };
  for (std::size_t i = 0; i < edges_.size(); ++i) {
    const Edge& edge = edges_[i];
    const double along = dot(edge.normal, direction);
    if (along <= 0) continue;
    take(nearest.least, edge.obstacle + least * edge.part, along, i);
    take(nearest.most, edge.obstacle + most * edge.part, along, i);
  }
  return nearest;
}

// Outside K and between the sides, which leave it at r and q, a shift is α·r + β·q with α + β ≥ 1: along the normal of
// the chord from r to q it lies at least as far as the nearer of the two. How far they lie is concave in the scale, K
// being convex in scale and shift together: the line through two scales' values is below it between them.
FitRow Parting::beyond_chord(const Wedge& wedge, double least, double most) const {
  const Exits leaves_from = exits(wedge.from, least, most), leaves_to = exits(wedge.to, least, most);
  const Point from = leaves_from.most.reach * wedge.from, to = leaves_to.most.reach * wedge.to;
  const Point along = to - from;
  const Point normal = 1 / length(along) * Point{along.y, -along.x};
  const double at_most = std::min(dot(normal, from), dot(normal, to));
  const double at_least =
      std::min(leaves_from.least.reach * dot(normal, wedge.from), leaves_to.least.reach * dot(normal, wedge.to));
  if (most - least < same_scale) return row(normal, std::min(at_least, at_most), 0);
  const double rise = (at_most - at_least) / (most - least);
  return row(normal, at_most - rise * most, rise);
}

// As the scale grows, the edge through which one ray leaves K changes step by step and never back: where it leaves is
// the least of functions linear in the scale. So the two ends of the range tell all.
Parting::Run Parting::edges_facing(const Wedge& wedge, double least, double most) const {
  const auto before = [this](std::size_t a, std::size_t b) { return cross(edges_[a].normal, edges_[b].normal) > 0; };
  const Exits from = exits(wedge.from, least, most), to = exits(wedge.to, least, most);
  const std::size_t a = from.least.edge, b = from.most.edge;
  const std::size_t c = to.least.edge, d = to.most.edge;
  const std::size_t first = before(b, a) ? b : a, last = before(c, d) ? d : c;
  return {first, (last + edges_.size() - first) % edges_.size() + 1};
}

Point Parting::corner(std::size_t edge, double scale) const {
  return edges_[edge].obstacle_corner - scale * edges_[edge].part_corner;
}

std::array<Point, 4> Parting::quarters(double scale) const {
  Bounds box;
  for (std::size_t i = 0; i < edges_.size(); ++i) box.add(corner(i, scale));
  return {Point{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

}  // namespace ordinatio::inline fit
