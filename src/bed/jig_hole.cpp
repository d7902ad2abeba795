#include "bed/jig_hole.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ordinatio::inline bed {
namespace {

Bounds shrunk(const Bounds& box, double by) { return {box.left + by, box.bottom + by, box.right - by, box.top - by}; }

/// Goes on along the arc about `centre`, turning left by `angle`, from where the path stands: centre + spoke.
void add_arc(Path& path, Point centre, Point spoke, double angle) {
  // Arcs of at most 45° as cubics with handles 4/3·tan(θ/4) err by less than 5e-6 of the radius.
  const int pieces = std::max(1, static_cast<int>(std::ceil(angle / (std::numbers::pi / 4) - 1e-9)));
  const double step = angle / pieces, handle = 4.0 / 3 * std::tan(step / 4), c = std::cos(step), s = std::sin(step);
  for (int piece = 0; piece < pieces; ++piece) {
    const Point next{c * spoke.x - s * spoke.y, s * spoke.x + c * spoke.y};
    path.cubic_to(centre + spoke + handle * Point{-spoke.y, spoke.x}, centre + next - handle * Point{-next.y, next.x},
                  centre + next);
    spoke = next;
  }
}

/// The notch about `centre`, on a side that runs in direction `along`, the hole to its left.
void add_notch(Path& path, Point centre, Point along, double radius, double half_kerf) {
  const double reach = radius - half_kerf, half_chord = std::sqrt(std::max(0.0, reach * reach - half_kerf * half_kerf));
  const Point inward{-along.y, along.x};
  const Point spoke = half_kerf * inward - half_chord * along;
  path.line_to(centre + spoke);
  add_arc(path, centre, spoke, std::numbers::pi + 2 * std::asin(std::min(1.0, half_kerf / reach)));
}

}  // namespace

std::array<Point, 2> Hole::notches() const {
  const Point middle = box.centre();
  return {Point{is_left(datum) ? box.right : box.left, middle.y}, {middle.x, is_lower(datum) ? box.top : box.bottom}};
}

Hole hole_for(const Frame& frame, const Pocket& pocket) {
  const Jig& jig = frame.plan.jig;
  const double piece_width = pocket.turned ? frame.blank_height : frame.blank_width;
  const double piece_height = pocket.turned ? frame.blank_width : frame.blank_height;
  const double width = std::max(pocket.box.width(), piece_width + jig.clearance);
  const double height = std::max(pocket.box.height(), piece_height + jig.clearance);
  Hole hole{pocket.number, pocket.box, jig.datum, 0};
  (is_left(jig.datum) ? hole.box.right : hole.box.left) =
      is_left(jig.datum) ? pocket.box.left + width : pocket.box.right - width;
  (is_lower(jig.datum) ? hole.box.top : hole.box.bottom) =
      is_lower(jig.datum) ? pocket.box.bottom + height : pocket.box.top - height;
  return hole;
}

Path cut_path(const Hole& hole, double kerf) {
  const Bounds b = shrunk(hole.box, kerf / 2);
  const Point corners[] = {{b.left, b.bottom}, {b.right, b.bottom}, {b.right, b.top}, {b.left, b.top}};
  const Point sides[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
  const auto [across, over] = hole.notches();
  const bool left = is_left(hole.datum), lower = is_lower(hole.datum);
  const std::size_t first = lower ? (left ? 2 : 3) : (left ? 1 : 0);
  Path path;
  path.move_to(corners[first]);
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t side = (first + i) % 4;
    if (hole.notch_radius > 0 && side == (left ? 1U : 3U))
      add_notch(path, across, sides[side], hole.notch_radius, kerf / 2);
    if (hole.notch_radius > 0 && side == (lower ? 2U : 0U))
      add_notch(path, over, sides[side], hole.notch_radius, kerf / 2);
    if (i < 3) path.line_to(corners[(side + 1) % 4]);
  }
  path.close();
  return path;
}

double distance(const Bounds& box, Point p) {
  return length({std::max({box.left - p.x, 0.0, p.x - box.right}), std::max({box.bottom - p.y, 0.0, p.y - box.top})});
}

double distance(const Bounds& a, const Bounds& b) {
  return length(
      {std::max({a.left - b.right, 0.0, b.left - a.right}), std::max({a.bottom - b.top, 0.0, b.bottom - a.top})});
}

double distance(const Hole& hole, const Bounds& box) {
  double least = distance(hole.box, box);
  if (hole.notch_radius <= 0) return least;
  for (const Point notch : hole.notches()) least = std::min(least, distance(box, notch) - hole.notch_radius);
  return std::max(least, 0.0);
}

}  // namespace ordinatio::inline bed
