// Things kept clear, drawn for people. Of this folder alone.
#pragma once

#include "paper/lettering.h"

namespace ordinatio::inline paper {

/// Outlines in thin dashes, each with its name in its largest convex part where the name goes in there. `to_page` turns,
/// mirrors, shifts and reduces: names keep their size.
void draw_kept_clear(Canvas& canvas, Lettering& lettering, const std::vector<KeptClear>& things,
                     const Transform& to_page, Colour colour);

}  // namespace ordinatio::inline paper
