// In: one line's letters, with nothing in them to object to. Out: the line without invisible characters that mean nothing,
// spaces as single ones. Never: touches a joiner or selector that changes how a letter looks.
#pragma once

#include <optional>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// Tab, U+0020 and every space of Unicode but U+1680, which is drawn as a line.
bool is_space(char32_t character);
/// Draws nothing, whatever the font: Default_Ignorable_Code_Point.
bool is_invisible(char32_t character);
/// A mark that belongs to the letter before it (Mn, Mc, Me), selectors and U+034F left out.
bool is_mark(char32_t character);

/// Leaves out soft hyphens, stray joiners and selectors, and zero width spaces that part nothing; one that parts two words
/// becomes a space, one between letters written without spaces stays: a line may end there. One note each. True when the
/// line is another.
bool drop_invisibles(Letters& line, Findings& findings);
/// A zero width space inside what may be one word or two.
std::optional<Objection> object_to_zero_width_space(std::span<const Letter> line);
/// U+00A0 or U+202F: a space that glues two words.
bool is_glue(char32_t character);
/// Leaves out spaces at both ends, silently, and makes each other run of spaces one, with a note unless it was one. What
/// draws nothing, such as a mark of direction, parts no run.
/// U+0020 or U+00A0 that carries a mark is a letter, and glue alone between two visible letters stays. True when something
/// changed.
bool tidy_spaces(Letters& line, Findings& findings);
/// Whether line[index] is glue that tidy_spaces let stay.
bool glues(std::span<const Letter> line, std::size_t index);
/// Makes spaces of all glue, with a note each.
void loosen(Letters& line, Findings& findings);

}  // namespace ordinatio::inline cleaning
