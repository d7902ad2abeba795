// What a line costs that ends at a break, best first; of several that apply to a place the largest counts. They are added
// up over a text, and weighed against its size: `step` costs what a design says (SettingRules::reads_well), two steps that
// of what is left, and so on. What costs more than two only habit forbids, but dearly. The numbers are ours, no source.
#pragma once

namespace ordinatio::inline text::break_penalty {

inline constexpr int phrase_end = 0;      // after a comma and its like, before "and", "&", an article or a preposition
inline constexpr int word_gap = 2;        // between two other words
inline constexpr int middle_initial = 2;  // after the initial in a name: Ada M. | Miller
inline constexpr int ordinal = 4;         // after a number that orders: 50. | Geburtstag, 12 | Weir Lane
inline constexpr int run_on = 5;  // of a line that runs on past a comma and ends amid a phrase: "mill, built | by Ada"
inline constexpr int clinging = 6;     // after "my", "their" and their like
inline constexpr int before_sign = 6;  // before a dash or another sign that stands alone
inline constexpr int dictionary = 8;   // where a dictionary parts Han, kana, Thai, Lao, Khmer, Burmese
inline constexpr int step = 10;
inline constexpr int name = 15;         // inside a name: after a title or first initials, before a middle one or Jr.
inline constexpr int small_word = 25;   // after an article or a short preposition: "Queen of | everything"
inline constexpr int conjunction = 25;  // after "and", "&" and their like: they head the next line
inline constexpr int hanging = 25;      // a short word that is a line by itself
inline constexpr int date = 30;         // between day, month and year, or two years and their dash
inline constexpr int amount = 30;       // between a number and what it counts
inline constexpr int hyphen = 40;       // after the hyphen inside a word

}  // namespace ordinatio::inline text::break_penalty
