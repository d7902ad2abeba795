// In: the words on both sides of a space. Out: whether a line may be broken there, and how that reads. Of this folder alone.
#pragma once

#include <optional>
#include <span>

#include "text/words.h"

namespace ordinatio::inline text {

/// A word of a line with what is asked of it again and again.
struct LineWord {
  LineWord(std::string_view text, std::string_view language);
  std::string_view text;  // as typed
  std::string_view bare;  // by bare_word
  std::string folded;     // by folded_word
  WordKind kind;
};

/// An article, preposition or conjunction: it leans on the words behind it.
bool leans(const LineWord& word);
/// No more than two letters or one ideograph; no name, no number.
bool is_short(const LineWord& word);

/// The penalty (text.h, break_penalty) of a break before words[index], which is not the first; nothing where it is forbidden.
/// `words` are all of the line's.
std::optional<int> penalty_before(std::span<const LineWord> words, std::size_t index, std::string_view language,
                                  MonthNames& months);

}  // namespace ordinatio::inline text
