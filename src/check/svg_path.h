// Of this folder alone.
#pragma once

#include <string_view>

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// Path data of absolute M, L, H, V, Q, C and Z, as a path in bed mm: x·scale, height − y·scale.
/// Throws a Difference, on `line`, for anything else, and for numbers that are no plain decimals.
Path read_path_data(std::string_view data, double scale, double height, std::size_t line);

}  // namespace ordinatio::inline check
