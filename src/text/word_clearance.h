// In: a line as it was shaped. Out: the same with its words apart, where letters climb over or run under the next word.
// Never: draws words nearer. Of this folder alone.
#pragma once

#include <functional>

#include "text/text.h"

namespace ordinatio::inline text {

/// em of ink to ink between two words of which one is in Arabic script: a dot of one and the tail of the other are told apart, and no
/// stroke of theirs is welded. Common practice, no source; Nastaliq alone comes nearer.
inline constexpr double word_clearance = 0.1;

using InkOf = std::function<const GlyphOutline&(const PlacedGlyph&)>;

/// Moves what stands to the right of a space to the right until the words on both sides are word_clearance apart.
void clear_words(ShapedLine& line, const InkOf& ink_of);

}  // namespace ordinatio::inline text
