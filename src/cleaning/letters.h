// In: the original's bytes. Out: its code points, each with the byte where it stood, so that whatever is done to them
// can still be shown in the original. Never: decides what may be engraved.
#pragma once

#include <unicode/uscript.h>

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cleaning/cleaning.h"

namespace ordinatio::inline cleaning {

struct Letter {
  char32_t character;
  std::size_t offset;  // byte of the original where it, or the entity that stood for it, begins
};
using Letters = std::vector<Letter>;

/// A note that does not know its line and column yet.
struct Finding {
  std::size_t offset;
  CleaningNote::Weight weight;
  std::string rule;
};
using Findings = std::vector<Finding>;

/// Why a text cannot be engraved as it is; a Fault that does not know its line and column yet.
struct Objection {
  std::size_t offset;
  std::string what, why, mend;
};

struct Place {
  std::size_t line = 1, column = 1;  // columns count graphemes
};

/// Places of ascending byte offsets in valid UTF-8. Lines part at CR LF, CR, LF, U+0085, U+2028 and U+2029.
std::vector<Place> places_of(std::string_view original, std::span<const std::size_t> offsets);

bool is_line_break(char32_t character);

/// Fault: the first byte that is not UTF-8 (RFC 3629), or half of a UTF-16 pair.
Result<Letters> read_letters(std::string_view original);
std::string write_letters(std::span<const Letter> letters);

/// Brings letters to NFC (UAX #15); returns the offsets of what changed.
std::vector<std::size_t> compose(Letters& letters);

/// UAX #24.
UScriptCode script_of(char32_t c);

/// "U+0031 DIGIT ONE, U+20E3 COMBINING ENCLOSING KEYCAP"; after the fourth, only how many more.
std::string names_of(std::span<const Letter> letters);

}  // namespace ordinatio::inline cleaning
