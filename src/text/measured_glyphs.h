// What all Typesetters of a FontLibrary know of its faces' files and glyphs. Of this folder alone.
#pragma once

#include "geometry/thickness.h"
#include "text/measured_once.h"
#include "text/text.h"

namespace ordinatio::inline text {

inline constexpr std::size_t most_glyphs = 1 << 12;     // of all faces
inline constexpr std::size_t most_checksums = 1 << 10;  // of files; those let go of are read again

struct FontLibrary::Measured {
  MeasuredOnce<Thickness> gauges{most_glyphs};
  MeasuredOnce<bool> overlaps{most_glyphs};
  MeasuredOnce<std::optional<Result<std::string>>> checksums{most_checksums};
};

}  // namespace ordinatio::inline text
