// Parts a line into runs that one face can shape at once. Of this folder alone.
#pragma once

#include <functional>

#include "text/face.h"

namespace ordinatio::inline text {

/// One character of a line with where it stands and what was found out about it.
struct LineLetter {
  char32_t character = 0;
  std::size_t byte = 0;      // where it starts in the line
  std::size_t grapheme = 0;  // which grapheme cluster it belongs to
  std::uint8_t level = 0;    // bidi embedding level (UAX #9)
  int script = 0;            // UScriptCode; common and inherited ones take their neighbours' script
  bool takes_any_script = false;
  FaceId face = 0;
};

/// Letters [first, last) of one level, script and face.
struct Run {
  std::size_t first = 0, last = 0;
  std::uint8_t level = 0;
  int script = 0;
  FaceId face = 0;
};

/// Characters, graphemes, levels and scripts; faces are not chosen yet.
std::vector<LineLetter> letters_of(std::string_view line);
/// Runs in visual order (UAX #9, rule L2).
std::vector<Run> runs_of(const std::vector<LineLetter>& letters);

/// "Latn" and so on.
std::string script_tag(int script);
/// Whether the script is set between a baseline and a cap height or x-height.
bool is_alphabetic(int script);
/// The scripts that a language is written in; empty when ICU does not know it.
std::vector<int> scripts_of(const std::string& language);
/// Whether runs of the script take the language that was told from the text's letters.
bool takes_told_language(int script);

}  // namespace ordinatio::inline text
