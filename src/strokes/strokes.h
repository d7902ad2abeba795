// In: outlines in mm that a machine which follows lines is to fill.
// Out: the lines that it follows: a hatch, joined into few strokes, never outside the outlines.
// Never: knows fonts, designs, machines or files.
#pragma once

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline strokes {

/// How an area is filled by lines.
struct Hatch {
  double angle = 45;    // degrees, counter-clockwise from the x axis, of the rows
  double pitch = 0.3;   // mm from row to row
  int directions = 1;   // 2: once more, crosswise
  double spot = 0;      // mm, the line's own width; 0: that of the machine
  bool outline = true;  // the edge is followed, too: what is narrower than a row is wide has no other line
};

// ---- hatch.cpp ----
/// Where the middle of a spot may go, so that all of it stays in what a path covers (non-zero rule): outer contours
/// counter-clockwise, holes clockwise. Never nearer to the edge than half the spot by more than 1 µm.
Polygons spot_area(const Path& ink, double spot);
/// Rows through an area, `pitch` apart and all on one raster from the origin, each pair of neighbours joined along the area's edge
/// where that is short. Open contours, in the order they are best followed. Faults: more row ends than `row_end_limit`.
Result<Path> hatch_rows(const Polygons& area, double angle, double pitch);
/// What is followed in place of the filled path: the edge, if it is asked for, then the rows of each direction.
Result<Path> hatched(const Path& ink, const Hatch& hatch);

inline constexpr double hatch_margin = 0.002;     // mm, kept besides, so that an edge may be made of fewer points
inline constexpr double edge_tolerance = 0.0015;  // mm, what that takes of the margin
inline constexpr double join_limit = 10;          // pitches; a longer way along the edge is not worth staying down for
inline constexpr std::size_t row_end_limit =
    1'000'000;  // of one path: ten beds full of lettering; more is a slip of the pen

}  // namespace ordinatio::inline strokes
