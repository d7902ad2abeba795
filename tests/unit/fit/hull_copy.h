// The largest copy of one hull in a region.
#pragma once

#include "fit/fit.h"

inline std::optional<ordinatio::Placement> largest_copy(const ordinatio::ConvexHull& hull,
                                                        const ordinatio::ConvexRegion& region,
                                                        const ordinatio::Wish& wish) {
  ordinatio::Bounds bounds;
  for (const ordinatio::Point p : hull.vertices) bounds.add(p);
  const auto support = [&hull](ordinatio::Point normal) { return support_of(hull, normal); };
  return ordinatio::largest_copy(ordinatio::fit_rows(support, region), bounds, wish);
}
