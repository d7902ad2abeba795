// In: one cell. Out: its words, parts and numbers. Never: knows the column.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline csv {

/// Words parted by spaces of any kind.
std::vector<std::string> words_in(std::string_view text);
/// Parts of a cell parted by `;`, trimmed; empty ones left out.
std::vector<std::string_view> parts_in(std::string_view cell);
/// A dash of print or a sign of multiplication becomes the key's own: "40–62" is "40-62", "12 × 8" is "12 x 8".
std::string with_plain_signs(std::string_view text);
/// Without the spaces on both sides of every `sign`: "40 - 62" is "40-62".
std::string closed_up(std::string_view text, char sign);

/// The number that is the whole of a word: 12.5, or 12,5 with a comma that cannot part thousands.
std::optional<double> number_in(std::string_view word);
/// Whether "1,200" may be one and a fifth or twelve hundred.
bool is_two_numbers(std::string_view word);

}  // namespace ordinatio::inline csv
