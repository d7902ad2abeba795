// Measures of a box, drawn for people. Of this folder alone.
#pragma once

#include <string>

#include "paper/page.h"

namespace ordinatio::inline paper {

struct MeasuresLook {
  double away = 10;  // mm from the box to the measure's line
  double size = body_size;
};
/// Width below the box and height to its right, their lines parted by the figures (ISO 129-1 allows it so).
void draw_measures(Canvas& canvas, Lettering& lettering, const Bounds& box, std::string_view width,
                   std::string_view height, const MeasuresLook& look);

}  // namespace ordinatio::inline paper
