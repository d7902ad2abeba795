// In: one word of a line, as typed. Out: what kind of word it is, by small lists. Of this folder alone.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline text {

/// A word without what surrounds it: quotes and brackets on both sides, commas and their like at its end. Points stay.
std::string_view bare_word(std::string_view word);
/// Each letter's simple lower case, the word's last point left off: "Dr." → "dr".
std::string folded_word(std::string_view bare);

enum class WordKind { other, conjunction, small_word, clinging };

// ---- word_lists.cpp ----
/// By the lists of `language` first, then by those of the languages whose words are seldom mistaken for others; where no
/// language is named, by those of all. `folded`: by folded_word.
WordKind kind_of(std::string_view folded, std::string_view language, bool capital = false);

bool is_title(std::string_view folded, std::string_view language);
/// Lower-case words that stay with the surname they begin: "van", "de". `before`: the word before it, or empty.
bool is_particle(std::string_view bare, std::string_view before);
/// "Jr.", "III": what stays with the name it follows.
bool is_generation(std::string_view bare, std::string_view language);

// ---- words.cpp ----
/// "J.", "J.R.", "J.-P.".
bool is_initials(std::string_view bare);
/// One capital and nothing else.
bool is_single_capital(std::string_view bare);
bool is_capitalised(std::string_view bare);
/// A capital, then letters, hyphens and apostrophes to its end.
bool is_name(std::string_view word);

/// Digits, and what may stand between or after them: "1,250.5", "3.", "12/2024".
bool is_number(std::string_view bare);

// ---- word_lists.cpp ----
bool is_unit(std::string_view bare);
/// "No.", "№", "€" alone: what stays with the number it precedes.
bool is_number_sign(std::string_view bare);

// ---- words.cpp ----
/// "3", "3.", "3rd", "1er": a number up to two digits, with or without an ending.
bool is_day(std::string_view bare);
/// "2024", "'24", "’24".
bool is_year(std::string_view bare);
bool is_dash(std::string_view word);
/// No letter and no digit in it.
bool is_sign(std::string_view word);

/// The months' names by ICU, of a language and English, long and short, folded.
class MonthNames {
 public:
  bool contains(std::string_view folded, std::string_view language);

 private:
  std::map<std::string, std::vector<std::string>, std::less<>> by_language_;
};

}  // namespace ordinatio::inline text
