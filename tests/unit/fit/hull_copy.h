// The largest copy of one hull in a region.
#pragma once

#include "fit/fit.h"

namespace ordinatio {

inline std::optional<Placement> largest_copy(const ConvexHull& hull, const ConvexRegion& region, const Wish& wish) {
  Bounds bounds;
  for (const Point p : hull.vertices) bounds.add(p);
  const auto support = [&hull](Point normal) { return support_of(hull, normal); };
  return largest_copy(fit_rows(support, region), bounds, wish);
}

}  // namespace ordinatio
