// Of this folder alone.
#pragma once

#include "machine/tour.h"

namespace ordinatio::inline machine {

/// Which contours lie in which: the inner one first. Contours that are open lie around nothing; what lies on a contour's edge
/// may count as inside. Nothing where more than `most_nested` of them lie around one another, for each that there is.
std::optional<Precedence> nesting_of(const std::vector<Path>& contours);
inline constexpr std::size_t most_nested = 8;

}  // namespace ordinatio::inline machine
