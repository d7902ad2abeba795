// In: a line's letters. Out: the parts of it that one face sets, each of them whole: words, numbers with the signs inside
// them, signs, spaces. Never: knows a face. Of this folder alone.
#pragma once

#include <vector>

#include "text/itemise.h"

namespace ordinatio::inline text {

/// Letters [first, last) of whole graphemes.
struct FaceUnit {
  enum class Kind { word, sign, space };
  std::size_t first = 0, last = 0;
  Kind kind = Kind::word;
  int script = 0;         // of its first letter that has one of its own, else of what stands before
  bool is_plain = false;  // a word without a letter of any script: a number
};

/// A letter, a mark or a figure; what stands between them is a sign, or a space.
bool is_wordy(char32_t character);

/// In the order of the text; together they are all of it. A word ends at a space, at a sign that does not stand inside a
/// word or a number, and where another script begins; Han, kana, bopomofo and hangul count as one.
std::vector<FaceUnit> face_units(const std::vector<LineLetter>& letters);

/// The script whose faces set it, too: that of Han for kana, bopomofo and hangul.
int script_group(int script);

/// Scripts written without spaces, whose "words" may be whole sentences.
bool is_written_without_spaces(int script);

}  // namespace ordinatio::inline text
