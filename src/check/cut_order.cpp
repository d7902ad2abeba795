#include "check/cut_order.h"

#include <algorithm>

#include "check/difference.h"
#include "geometry/contour_order.h"

namespace ordinatio::inline check {
namespace {

constexpr double cut_chord = 0.01;  // mm: contours that a machine can cut are farther apart

struct CutContour {
  Polyline line;
  Bounds box;
};

bool lies_around(const Bounds& outer, const Bounds& inner) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom &&
         inner.top <= outer.top && outer != inner;
}

/// Turns of the closed line about the point.
int winding(const Polygon& line, Point p) {
  int turns = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Point a = line[i], b = line[(i + 1) % line.size()];
    if ((a.y <= p.y) == (b.y <= p.y)) continue;
    const double side = cross(b - a, p - a);
    if (b.y > a.y && side > 0) ++turns;
    if (b.y < a.y && side < 0) --turns;
  }
  return turns;
}

/// What is open lies around nothing.
bool lies_in(const CutContour& inner, const CutContour& outer) {
  return outer.line.closed && lies_around(outer.box, inner.box) &&
         std::ranges::all_of(inner.line.points, [&](Point p) { return winding(outer.line.points, p) != 0; });
}

std::vector<CutContour> cut_contours_of(const Path& cut) {
  std::vector<CutContour> contours;
  for (const Path& contour : contours_of(cut)) {
    CutContour& flat = contours.emplace_back();
    flat.line = flatten(contour, cut_chord).front();
    for (const Point p : flat.line.points) flat.box.add(p);
  }
  return contours;
}

}  // namespace

void require_inner_first(const std::string& name, const Path& cut, std::size_t line) {
  const std::vector<CutContour> contours = cut_contours_of(cut);
  for (std::size_t later = 1; later < contours.size(); ++later) {
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      if (!lies_in(contours[later], contours[earlier])) continue;
      throw Difference{name + ": contour " + std::to_string(earlier + 1) + " would be cut before contour " +
                           std::to_string(later + 1) + ", which lies in it",
                       line};
    }
  }
}

}  // namespace ordinatio::inline check
