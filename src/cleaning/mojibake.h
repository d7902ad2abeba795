// In: letters. Out: the first place where UTF-8 was read as Latin-1 or Windows-1252 ("Ã©" for "é", "â€™" for "’").
// Never: mends it; a person says what was meant. Of this folder alone.
#pragma once

#include <optional>
#include <span>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

struct Mojibake {
  std::size_t index, length;  // in letters
  char32_t meant;
};

/// The first sequence that only misread UTF-8 explains. Words that end in an accented capital before closing
/// punctuation ("CAFÉ”", "IRMÃ…") look alike and are let pass.
std::optional<Mojibake> find_mojibake(std::span<const Letter> letters);

}  // namespace ordinatio::inline cleaning
