#include "machine/nesting.h"

#include <algorithm>

#include "geometry/contour_start.h"

namespace ordinatio::inline machine {
namespace {

constexpr double nesting_chord = 0.01;  // mm: contours that a machine can cut are farther apart

struct NestedContour {
  Polygon points;
  Bounds box;
  std::size_t number;
  bool closed;
};

bool is_within(const Bounds& inner, const Bounds& outer) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom &&
         inner.top <= outer.top && inner != outer;
}

/// By the turns of the polygon about the point.
bool surrounds(const Polygon& polygon, Point p) {
  int turns = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    if ((a.y <= p.y) == (b.y <= p.y)) continue;
    const double side = cross(b - a, p - a);
    if (b.y > a.y && side > 0) ++turns;
    if (b.y < a.y && side < 0) --turns;
  }
  return turns != 0;
}

}  // namespace

std::optional<Precedence> nesting_of(const std::vector<Path>& contours) {
  std::vector<NestedContour> nested;
  for (std::size_t i = 0; i < contours.size(); ++i) {
    NestedContour& one = nested.emplace_back();
    one.points = flatten(contours[i], nesting_chord).front().points;
    for (const Point p : one.points) one.box.add(p);
    one.number = i;
    one.closed = is_closed(contours[i]);
  }
  std::ranges::stable_sort(nested, {}, [](const NestedContour& one) { return one.box.left; });
  Precedence pairs;
  for (const NestedContour& outer : nested) {
    if (!outer.closed) continue;
    // What lies in it begins no farther to the left.
    auto inner =
        std::ranges::lower_bound(nested, outer.box.left, {}, [](const NestedContour& one) { return one.box.left; });
    for (; inner != nested.end() && inner->box.left <= outer.box.right; ++inner) {
      if (!is_within(inner->box, outer.box) || !surrounds(outer.points, inner->points.front())) continue;
      pairs.emplace_back(inner->number, outer.number);
      if (pairs.size() > most_nested * contours.size()) return std::nullopt;
    }
  }
  return pairs;
}

}  // namespace ordinatio::inline machine
