#include "geometry/contour_order.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace ordinatio::inline geometry {

std::vector<Path> contours_of(const Path& path) {
  std::vector<Path> contours;
  const Point* next = path.points().data();
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        contours.emplace_back().move_to(*next++);
        break;
      case Path::Verb::line:
        contours.back().line_to(*next++);
        break;
      case Path::Verb::quad:
        contours.back().quad_to(next[0], next[1]);
        next += 2;
        break;
      case Path::Verb::cubic:
        contours.back().cubic_to(next[0], next[1], next[2]);
        next += 3;
        break;
      case Path::Verb::close:
        contours.back().close();
    }
  }
  std::erase_if(contours, [](const Path& contour) { return contour.verbs().size() < 2; });
  return contours;
}

Path smallest_first(const Path& path) {
  struct Sized {
    Path contour;
    double box, area;
  };
  std::vector<Sized> contours;
  for (Path& contour : contours_of(path)) {
    const Bounds box = bounds_of(contour);
    const double area = std::abs(area_of(contour));
    contours.push_back({std::move(contour), box.width() * box.height(), area});
  }
  std::ranges::stable_sort(
      contours, [](const Sized& a, const Sized& b) { return std::tie(a.box, a.area) < std::tie(b.box, b.area); });
  Path ordered;
  for (const Sized& sized : contours) ordered.append(sized.contour);
  return ordered;
}

}  // namespace ordinatio::inline geometry
