// In: one line's letters. Out: the line with letters that are only drawn otherwise as plain ones. Never: touches a letter that
// means something else. Of this folder alone.
#pragma once

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// Takes Latin ligatures (U+FB00 to U+FB06) apart: faces make their own where they have them, and case and spacing need the
/// letters. Makes plain letters and figures of mathematical ones (UAX #44: decompositions of type <font> in the blocks
/// Letterlike Symbols and Mathematical Alphanumeric Symbols), which people paste for their looks. One note a kind.
struct PlainLetters {
  bool changed = false;
  bool mathematical = false;  // there were such letters
};
PlainLetters make_plain(Letters& line, Findings& findings);

}  // namespace ordinatio::inline cleaning
