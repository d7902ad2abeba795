// In: an SVG drawing, not to be trusted.
// Out: its ink as one path in mm, or the reason why it cannot be engraved.
// Never: draws in this process, or lets a hostile file cost more than its limits.
#pragma once

#include <filesystem>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline logo {

/// A logo as resolved paths in mm, lower-left corner of its box at the origin, y up.
struct Logo {
  Path fill;   // fills and outlined strokes, welded: engraved
  Bounds box;  // the SVG's own width × height
};
/// Reads an SVG logo. Text, images, filters, masks, gradients, patterns and DOCTYPE are refused by name and
/// line; the drawing itself happens in a child process with limits on CPU, memory and output, so a hostile
/// file costs a Fault.
Result<Logo> read_logo(const std::filesystem::path& svg);

}  // namespace ordinatio::inline logo
