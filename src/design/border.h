// Borders along the edge of a piece. Of this folder alone.
#pragma once

#include "design/design.h"

namespace ordinatio::inline design {

/// How much of the blank a border takes up, from the edge inwards.
double reach_of(const BorderPart& border);

/// What is nearer to a chip than `distance`, and the chips, as convex pieces.
std::vector<ConvexHull> chips_grown(const Blank& blank, double distance);

/// The border's ink: it follows the edge, chips and all, and has gaps where `things` are. Nothing where it meets itself.
std::optional<Path> border_path(const Blank& blank, const BorderPart& border, const std::vector<ConvexHull>& things);

}  // namespace ordinatio::inline design
