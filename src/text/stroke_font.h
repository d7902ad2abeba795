// A stroke alphabet as HarfBuzz's font: what shapes outlines shapes lines, too. A glyph's number is its character. Of this
// folder alone.
#pragma once

#include "strokes/alphabet.h"
#include "text/face.h"

namespace ordinatio::inline text {

inline constexpr unsigned stroke_units_per_em =
    1400;  // ten of the alphabet's grid, since HarfBuzz counts in whole ones

/// The alphabet must outlive it.
HbFont stroke_font(const StrokeAlphabet& alphabet);
/// Lines where others have outlines. What it weighs, and where its middle is, are those of lines as wide as they are drawn for.
GlyphOutline stroke_outline(const StrokeAlphabet& alphabet, hb_codepoint_t glyph);

}  // namespace ordinatio::inline text
