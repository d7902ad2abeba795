#include <algorithm>

#include "fit/fit.h"

namespace ordinatio::inline fit {
namespace {

/// A value that is given at ascending heights and runs straight between them.
double at_height(const std::vector<double>& heights, const std::vector<double>& values, double height) {
  const auto i = static_cast<std::size_t>(std::ranges::lower_bound(heights, height) - heights.begin());
  if (i == 0) return values.front();
  if (i == heights.size()) return values.back();
  const double share = (height - heights[i - 1]) / (heights[i] - heights[i - 1]);
  return values[i - 1] + share * (values[i] - values[i - 1]);
}

/// What a polygon covers at a height between its lowest and its highest corner; `left` and `right` alone count.
Bounds chord(const Polygon& polygon, double height) {
  Bounds across;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    if (a.y == height) across.add(Point{a.x, 0});
    if ((a.y < height && b.y > height) || (a.y > height && b.y < height)) {
      across.add(Point{a.x + (height - a.y) / (b.y - a.y) * (b.x - a.x), 0});
    }
  }
  return across;
}

}  // namespace

double WidthProfile::across(double low, double high) const {
  if (heights.empty() || low > high || high < heights.front() || low > heights.back()) return 0;
  const double least = std::max(low, heights.front()), most = std::min(high, heights.back());
  // A convex region reaches furthest at one height and ever less away from it.
  const auto height_of = [&](auto place, const std::vector<double>& sides) {
    return std::clamp(heights[static_cast<std::size_t>(place - sides.begin())], least, most);
  };
  const double right = at_height(heights, rights, height_of(std::ranges::max_element(rights), rights));
  const double left = at_height(heights, lefts, height_of(std::ranges::min_element(lefts), lefts));
  return right - left;
}

WidthProfile widths_of(const ConvexRegion& region) {
  const Polygon polygon = polygon_of(region);
  WidthProfile profile;
  for (const Point p : polygon) profile.heights.push_back(p.y);
  std::ranges::sort(profile.heights);
  profile.heights.erase(std::unique(profile.heights.begin(), profile.heights.end()), profile.heights.end());
  for (const double height : profile.heights) {
    const Bounds across = chord(polygon, height);
    profile.lefts.push_back(across.left);
    profile.rights.push_back(across.right);
  }
  return profile;
}

}  // namespace ordinatio::inline fit
