#include <algorithm>
#include <cmath>

#include "geometry/convex_cut.h"

namespace ordinatio::inline geometry {
namespace {

/// Whether a ray from p to the right meets the loop an odd number of times.
bool holds(const std::vector<Point>& corners, const CornerLoop& loop, Point p) {
  bool inside = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point a = corners[loop[i]], b = corners[loop[(i + 1) % loop.size()]];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
  }
  return inside;
}

/// Whether the line from p to q meets that from a to b elsewhere than in a common corner.
bool meets(Point p, Point q, Point a, Point b) {
  const auto side = [](Point from, Point to, Point of) {
    const double turn = cross(to - from, of - from);
    return (turn > 0) - (turn < 0);
  };
  if (a == p || a == q || b == p || b == q) return false;
  return side(p, q, a) * side(p, q, b) <= 0 && side(a, b, p) * side(a, b, q) <= 0;
}

/// Whether `to` is seen from corner `at` of the loop on the loop's own side.
bool looks_inside(const std::vector<Point>& corners, const CornerLoop& loop, std::size_t at, Point to) {
  const Point here = corners[loop[at]];
  const Point in = here - corners[loop[(at + loop.size() - 1) % loop.size()]];
  const Point out = corners[loop[(at + 1) % loop.size()]] - here, view = to - here;
  const bool left_of_in = cross(in, view) > 0, left_of_out = cross(out, view) > 0;
  return cross(in, out) > 0 ? left_of_in && left_of_out : left_of_in || left_of_out;
}

struct Tie {
  std::size_t outer = 0, hole = 0;  // places in their loops
  double span = 1e300;
};

class HoleTier {
 public:
  explicit HoleTier(CornerLoops& area) : area_(area) {}

  void tie(CornerLoop& outer, const CornerLoop& hole) {
    Tie best;
    for (std::size_t i = 0; i < outer.size(); ++i) {
      for (std::size_t j = 0; j < hole.size(); ++j) {
        const Point a = corner(outer[i]), b = corner(hole[j]);
        const double span = length(b - a);
        if (span < best.span && looks_inside(area_.corners, outer, i, b) && looks_inside(area_.corners, hole, j, a) &&
            is_free(outer, a, b)) {
          best = {i, j, span};
        }
      }
    }
    if (best.span == 1e300) return;  // contours cross: the hole is given up, and more is covered
    CornerLoop tied(outer.begin(), outer.begin() + static_cast<std::ptrdiff_t>(best.outer) + 1);
    for (std::size_t j = 0; j <= hole.size(); ++j) tied.push_back(hole[(best.hole + j) % hole.size()]);
    tied.insert(tied.end(), outer.begin() + static_cast<std::ptrdiff_t>(best.outer), outer.end());
    outer = std::move(tied);
  }

 private:
  [[nodiscard]] Point corner(std::size_t index) const { return area_.corners[index]; }
  [[nodiscard]] bool is_free(const CornerLoop& outer, Point a, Point b) const {
    const auto crosses = [&](const CornerLoop& loop) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        if (meets(a, b, corner(loop[i]), corner(loop[(i + 1) % loop.size()]))) return true;
      }
      return false;
    };
    return !crosses(outer) && std::ranges::none_of(area_.loops, crosses);
  }

  CornerLoops& area_;
};

}  // namespace

void tie_holes(CornerLoops& area) {
  std::vector<CornerLoop> outers;
  for (const CornerLoop& loop : area.loops) {
    if (area_of(area.corners, loop) > 0) outers.push_back(loop);
  }
  std::ranges::stable_sort(outers, {}, [&](const CornerLoop& loop) { return area_of(area.corners, loop); });
  const std::vector<CornerLoop> whole = outers;  // without ties
  HoleTier tier(area);
  for (const CornerLoop& loop : area.loops) {
    if (area_of(area.corners, loop) > 0) continue;
    const auto around = std::ranges::find_if(
        whole, [&](const CornerLoop& outer) { return holds(area.corners, outer, area.corners[loop.front()]); });
    if (around != whole.end()) tier.tie(outers[static_cast<std::size_t>(around - whole.begin())], loop);
  }
  area.loops = std::move(outers);
}

}  // namespace ordinatio::inline geometry
