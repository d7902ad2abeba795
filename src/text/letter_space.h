// In: a line's letters, and where HarfBuzz parted them. Out: where letter spacing may stand. Never: sets anything.
// Of this folder alone.
#pragma once

#include "text/itemise.h"

namespace ordinatio::inline text {

/// Whether the letters of the script join, by their strokes, a headline or a stem: they are never spaced.
bool joins(int script);

/// What letter spacing adds between the graphemes that begin at two bytes, in either order; after the one at `byte` at a
/// run's end, where there is no other. Nothing where letters join, after what draws nothing, such as a mark of direction,
/// and inside a conjunct.
double space_between(const std::vector<LineLetter>& letters, std::size_t byte, std::size_t other_byte,
                     double letter_spacing);
double space_after(const std::vector<LineLetter>& letters, std::size_t byte, double letter_spacing);
/// Of that, what stands after the last letter of a line that shows.
double space_at_end(const std::vector<LineLetter>& letters, const std::vector<PlacedGlyph>& glyphs,
                    double letter_spacing);

}  // namespace ordinatio::inline text
