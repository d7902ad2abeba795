// Of this folder alone.
#pragma once

#include <string>

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// Throws a Difference where a contour comes before another that lies in it: once it is cut, what it held is loose. Cost:
/// the square of the contours, for their boxes alone.
void require_inner_first(const std::string& name, const Path& cut, std::size_t line);

}  // namespace ordinatio::inline check
