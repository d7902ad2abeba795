// In: a customer's words, byte for byte, or any other text that a page is to show.
// Out: text that every reader sees whole: odd characters spelled out in brackets, lines parted, places to
// break at. Never: changes what is engraved; shapes or draws. Of this folder alone.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ordinatio::inline paper {

/// Text in which nothing is hidden.
struct Wording {
  std::string text;       // valid UTF-8
  std::vector<bool> odd;  // of each byte: it is a sign that we put there, not the customer's

  void add(std::string_view words, bool is_sign);
  [[nodiscard]] Wording part(std::size_t begin, std::size_t end) const;
};

/// Spells out what cannot be seen for what it is: controls, odd spaces, joiners that join nothing, marks that no letter
/// carries, private use as [U+00A0]; bytes that are not UTF-8 as [0xFF]; spaces at the ends of the line and after another
/// space as `space_sign`.
Wording make_visible(std::string_view line, std::string_view space_sign);
/// "[U+1F468 U+200D U+1F469]": the code points of a grapheme, for what no face draws.
std::string spell_out(std::string_view grapheme);

/// Whether the first letter that has a direction runs from right to left.
bool reads_right_to_left(std::string_view text);
/// Bytes behind which a line may end (UAX #14, by ICU), the text's end among them.
std::vector<std::size_t> line_breaks(std::string_view text);

}  // namespace ordinatio::inline paper
