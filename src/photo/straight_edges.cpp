#include "photo/straight_edges.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ordinatio::inline photo {
namespace {

constexpr double least_side = 6;       // mm: shorter ones are left as they are
constexpr double side_ends = 1.5;      // mm at each end of a side that do not count: corners are blurred there
constexpr double side_scatter = 0.15;  // mm, median distance from its line: what scatters more is no straight side
constexpr double far_off = 3;          // times that: crumbs and nicks
constexpr double same_way = 0.026;  // radians, 1.5°: sides that turn less are one, if one line is near enough to both
constexpr double meeting = 0.087;   // radians, 5°: of sides that turn less, the crossing is anywhere
constexpr double true_corner =
    0.5;  // radians, 29°: sides that turn less are of a curve, and their crossing may not stick out of it
constexpr double longest_blunt = 4;  // mm of edge from one side to the next, where a corner was blunted

struct Side {
  std::size_t from = 0, to = 0;  // edge points, to may be less than from: it goes round
  bool straight = false;
  Point through, along;  // of its line
};

class Straightening {
 public:
  explicit Straightening(std::span<const EdgePoint> edge) : edge_(edge) {}
  Polygon outline();

 private:
  [[nodiscard]] Point at(std::size_t i) const { return edge_[i % edge_.size()].place; }
  [[nodiscard]] std::size_t steps(const Side& side) const {
    return (side.to + edge_.size() - side.from) % edge_.size();
  }
  void simplify();
  void fit(Side& side) const;
  [[nodiscard]] bool is_near(const Side& side) const;
  void merge();
  [[nodiscard]] std::vector<std::size_t> parted(std::size_t first, std::size_t last) const;
  void add_corner(Polygon& outline, const Side& one, const Side& other) const;

  std::span<const EdgePoint> edge_;
  std::vector<Side> sides_;
};

double distance_from(Point p, Point a, Point b) {
  const double size = dot(b - a, b - a);
  const double share = size > 0 ? std::clamp(dot(p - a, b - a) / size, 0.0, 1.0) : 0;
  return length(p - (a + share * (b - a)));
}

/// The points of a chain that are kept, but its last one: it is parted at the farthest from its chord until all lie near.
std::vector<std::size_t> Straightening::parted(std::size_t first, std::size_t last) const {
  std::vector<std::size_t> kept;
  std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    std::size_t worst = from;
    double most = outline_tolerance;
    for (std::size_t i = from + 1; i < to; ++i) {
      const double distance = distance_from(at(i), at(from), at(to));
      if (distance > most) most = distance, worst = i;
    }
    if (worst == from) {
      kept.push_back(from % edge_.size());
    } else {
      open.emplace_back(worst, to);
      open.emplace_back(from, worst);
    }
  }
  return kept;
}

/// Two chains: from the point farthest from the first one to the one farthest from that, and back.
void Straightening::simplify() {
  const std::size_t count = edge_.size();
  const auto farthest_from = [&](Point p) {
    std::size_t best = 0;
    for (std::size_t i = 0; i < count; ++i) {
      if (length(at(i) - p) > length(at(best) - p)) best = i;
    }
    return best;
  };
  const std::size_t start = farthest_from(at(0)), middle = farthest_from(at(start));
  std::vector<std::size_t> corners = parted(start, middle + (middle < start ? count : 0));
  const std::vector<std::size_t> back = parted(middle, start + (start < middle ? count : 0));
  corners.insert(corners.end(), back.begin(), back.end());
  for (std::size_t i = 0; i < corners.size(); ++i)
    sides_.push_back({corners[i], corners[(i + 1) % corners.size()], false, {}, {}});
}

/// Total least squares: through the middle, along the greater axis of the scatter; twice, the second time without far_offs.
void Straightening::fit(Side& side) const {
  side.straight = false;
  if (length(at(side.to) - at(side.from)) < least_side) return;
  const auto ends = static_cast<std::size_t>(side_ends / edge_spacing);
  std::vector<Point> points;
  for (std::size_t i = ends; i + ends <= steps(side); ++i) {
    if (edge_[(side.from + i) % edge_.size()].exact) points.push_back(at(side.from + i));
  }
  for (int round = 0; round < 2; ++round) {
    if (points.size() < 5) return;
    Point middle;
    for (const Point p : points) middle = middle + 1 / static_cast<double>(points.size()) * p;
    double xx = 0, xy = 0, yy = 0;
    for (const Point p : points) {
      const Point d = p - middle;
      xx += d.x * d.x, xy += d.x * d.y, yy += d.y * d.y;
    }
    const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
    side.through = middle, side.along = {std::cos(angle), std::sin(angle)};
    if (dot(side.along, at(side.to) - at(side.from)) < 0) side.along = -1 * side.along;
    std::vector<double> away;
    away.reserve(points.size());
    for (const Point p : points) away.push_back(std::abs(cross(side.along, p - middle)));
    const auto half = away.begin() + static_cast<std::ptrdiff_t>(away.size() / 2);
    std::nth_element(away.begin(), half, away.end());
    const double scatter = *half;
    if (scatter > side_scatter) return;
    std::erase_if(points,
                  [&](Point p) { return std::abs(cross(side.along, p - middle)) > far_off * std::max(scatter, 0.02); });
  }
  side.straight = true;
}

/// Whether all of a side lies near its line, but for its ends.
bool Straightening::is_near(const Side& side) const {
  const auto ends = static_cast<std::size_t>(side_ends / edge_spacing);
  for (std::size_t i = ends; i + ends <= steps(side); ++i) {
    if (std::abs(cross(side.along, at(side.from + i) - side.through)) > outline_tolerance / 2) return false;
  }
  return true;
}

/// A straight side takes its neighbour in where one line is near to both: a chain is parted at blunted corners, too, and a little
/// before them.
void Straightening::merge() {
  for (std::size_t i = 0; sides_.size() > 3 && i < sides_.size();) {
    const std::size_t next = (i + 1) % sides_.size();
    Side both{sides_[i].from, sides_[next].to, false, {}, {}};
    if (sides_[i].straight || sides_[next].straight) fit(both);
    if (!both.straight || !is_near(both)) {
      ++i;
      continue;
    }
    sides_[i] = both;
    sides_.erase(sides_.begin() + static_cast<std::ptrdiff_t>(next));
    i = 0;  // its neighbour before may lie near, too
  }
}

/// From one straight side to the next, by where they cross or by the edge between them.
void Straightening::add_corner(Polygon& outline, const Side& one, const Side& other) const {
  const auto away = [](const Side& side, Point p) { return std::abs(cross(side.along, p - side.through)); };
  const auto on = [](const Side& side, Point p) {
    return side.through + dot(p - side.through, side.along) * side.along;
  };
  // What the sides took in of the corner is the corner's again.
  const auto most = static_cast<std::size_t>(side_ends / edge_spacing);
  std::size_t begin = one.to, end = other.from + (other.from < one.to ? edge_.size() : 0);
  for (std::size_t i = 0; i < most && away(one, at(begin)) > side_scatter; ++i)
    begin = begin == 0 ? edge_.size() - 1 : begin - 1;
  if (begin > end) end += edge_.size();
  for (std::size_t i = 0; i < most && away(other, at(end)) > side_scatter; ++i) ++end;
  const double turn = cross(one.along, other.along);
  if (std::abs(turn) > meeting) {
    const Point crossing = one.through + cross(other.through - one.through, other.along) / turn * one.along;
    double between = 0, nearest = length(crossing - at(begin));
    for (std::size_t i = begin; i < end; ++i) {
      between += length(at(i + 1) - at(i));
      nearest = std::min(nearest, distance_from(crossing, at(i), at(i + 1)));
    }
    const double blunt = std::abs(turn) > true_corner ? blunt_corner : outline_tolerance;
    if (between < longest_blunt && nearest < blunt) return outline.push_back(crossing);
  }
  const std::vector<std::size_t> chain = parted(begin, end);
  outline.push_back(on(one, at(begin)));
  for (std::size_t i = 1; i < chain.size(); ++i) outline.push_back(at(chain[i]));
  if (begin != end) outline.push_back(on(other, at(end)));
}

Polygon Straightening::outline() {
  simplify();
  for (Side& side : sides_) fit(side);
  merge();
  Polygon outline;
  std::vector<Side> straight;
  std::ranges::copy_if(sides_, std::back_inserter(straight), &Side::straight);
  if (straight.size() < 2) {
    for (const Side& side : sides_) outline.push_back(at(side.from));
    return outline;
  }
  for (std::size_t i = 0; i < straight.size(); ++i)
    add_corner(outline, straight[i], straight[(i + 1) % straight.size()]);
  return outline;
}

}  // namespace

Polygon straightened(std::span<const EdgePoint> edge) { return Straightening(edge).outline(); }

}  // namespace ordinatio::inline photo
