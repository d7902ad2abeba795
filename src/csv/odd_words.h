// In: a word as one encoding reads it. Out: how little it looks like a word of any language.
// Never: knows names; a word that is odd may be right, and one that is not may be wrong. Of this folder alone.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace ordinatio::inline csv {

/// What is added up over the words of a file. A reading of it that has less is likelier.
namespace oddness {
inline constexpr int none = 0;
inline constexpr int unusual = 1;   // a dash or an opening mark where words seldom have one
inline constexpr int certain = 10;  // letters that no language puts together: `JosŽ`, `£ukasz`, `Rùžena`
}  // namespace oddness

/// Letters that go together are those of one language (CLDR's exemplar characters, by ICU).
class OddWords {
 public:
  OddWords();
  /// word: letters and what stands among them, without ASCII but its letters.
  int oddness_of(std::u32string_view word);
  /// Whether one language has all letters of all the words.
  bool are_of_one_language(const std::vector<std::u32string>& words);

 private:
  bool is_of_a_language(const std::u32string& letters);
  std::vector<std::u32string> alphabets_;  // beyond ASCII, small letters, one for each language
  std::map<std::u32string, bool> known_;   // sets of letters that were asked for
};

}  // namespace ordinatio::inline csv
