// In: a line in which a script stands that is written without blanks, and the words that ICU's dictionaries find in it.
// Out: where between two of its characters a letterer would break it. Never: breaks a name on purpose. Of this folder alone.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "text/text.h"

namespace ordinatio::inline text {

/// Han, kana, bopomofo and Yi, with their punctuation.
bool is_ideographic(char32_t c);
/// Scripts whose words ICU's dictionaries tell apart, and those of their kind that it breaks at syllables.
bool is_unspaced_alphabet(char32_t c);
bool is_unspaced(char32_t c);

/// The penalty (text.h, break_penalty) of a break at byte `at`, where Unicode allows one and no blank stands; nothing
/// where a letterer would not break. `edges`: where words begin and end in the line, ascending.
/// Dictionaries know few names, so what may be one stays whole: a run of up to `longest_name` ideographs, a word in
/// katakana, hiragana before which no particle ends.
std::optional<int> unspaced_penalty(std::string_view line, const std::vector<std::size_t>& edges, std::size_t at);
inline constexpr std::size_t longest_name =
    6;  // a surname of four or five and a name of two; common practice, no source

/// Takes out the places between two characters that would leave one character alone between two places or blanks.
void drop_lone_characters(std::string_view line, std::vector<BreakPlace>& places);

}  // namespace ordinatio::inline text
