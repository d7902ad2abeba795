// In: letters as typed, with HTML entities. Out: letters with each entity replaced by what it stands for, once.
// Never: decodes what decoding brought forth; guesses at a name it does not know.
#pragma once

#include <optional>
#include <string_view>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// What an entity's name stands for: the 252 names of HTML 4.01, section 24, and XML's apos.
std::optional<char32_t> named_character(std::string_view name);

/// Decodes named, decimal and hexadecimal references that end in a semicolon. Unknown names stay as typed, with a
/// warning. Objects to a number that stands for a control, a surrogate, or nothing; but not to tab, CR and LF, which may be
/// typed plainly as well.
std::optional<Objection> decode_entities(Letters& letters, Findings& findings);

}  // namespace ordinatio::inline cleaning
