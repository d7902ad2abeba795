// What all Typesetters of a FontLibrary know of its faces' glyphs. Of this folder alone.
#pragma once

#include "geometry/thickness.h"
#include "text/measured_once.h"
#include "text/text.h"

namespace ordinatio::inline text {

inline constexpr std::size_t most_glyphs = 1 << 12;  // of all faces

struct FontLibrary::Measured {
  MeasuredOnce<Thickness> gauges{most_glyphs};
  MeasuredOnce<bool> overlaps{most_glyphs};
};

}  // namespace ordinatio::inline text
