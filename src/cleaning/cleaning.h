// In: a customer's words as bytes.
// Out: cleaned lines, NFC, with a list of what was changed; or why they cannot be engraved, and where that stands.
// Never: knows a face, a size or what the words are for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline cleaning {

/// One thing that cleaning did, or noticed.
struct CleaningNote {
  enum class Weight { silent, note, warning } weight = Weight::silent;
  std::size_t line = 1, column = 1;  // in the original, counted from 1; columns count graphemes
  std::string rule;                  // what was done, in plain words: "non-breaking space became a space"
};

struct Inscription {
  std::string original;            // byte for byte as it came
  std::vector<std::string> lines;  // cleaned, NFC, UTF-8, in logical order; at least one; inner lines may be empty
  std::vector<CleaningNote> notes;
  bool mathematical = false;  // mathematical letters stood in it, which became plain ones
};

struct CleaningRules {
  std::string line_separator;   // parts lines besides newlines, e.g. " / "; empty: newlines only
  bool decode_entities = true;  // HTML entities, once; &amp;lt; becomes &lt;
};

/// Cleans a text for engraving, or says why it cannot be: the Fault names line, place, character and its
/// Unicode name.
Result<Inscription> clean_inscription(std::string_view original, const CleaningRules& rules = {});

// ---- characters.cpp ----
/// "U+1F600 GRINNING FACE", by ICU.
std::string character_name(char32_t character);
/// Valid UTF-8 parted into grapheme clusters (UAX #29, by ICU).
std::vector<std::string_view> graphemes_of(std::string_view text);

}  // namespace ordinatio::inline cleaning
