#include "cleaning/emoji.h"

#include <unicode/uchar.h>

namespace ordinatio::inline cleaning {
namespace {

constexpr char32_t emoji_joiner = 0x200D, as_text = 0xFE0E, as_emoji = 0xFE0F, keycap = 0x20E3;
constexpr char32_t first_emoji = 0x203C;  // of those that need no U+FE0F or keycap to be one

bool has(char32_t character, UProperty property) {
  return u_hasBinaryProperty(static_cast<UChar32>(character), property);
}

char32_t at(std::span<const Letter> letters, std::size_t index) {
  return index < letters.size() ? letters[index].character : 0;
}

bool is_modifier(char32_t c) { return c >= 0x1F3FB && c <= 0x1F3FF; }
bool is_region(char32_t c) { return c >= 0x1F1E6 && c <= 0x1F1FF; }
bool is_tag(char32_t c) { return c >= 0xE0020 && c <= 0xE007F; }
bool is_keycap_base(char32_t c) { return (c >= '0' && c <= '9') || c == '#' || c == '*'; }

/// A joiner between two pictures, as UAX #29 GB11 has it.
bool joins_pictures(std::span<const Letter> letters, std::size_t index) {
  return at(letters, index) == emoji_joiner && has(at(letters, index + 1), UCHAR_EXTENDED_PICTOGRAPHIC);
}

bool begins_emoji(std::span<const Letter> letters) {
  const char32_t first = at(letters, 0), second = at(letters, 1);
  if (is_keycap_base(first)) return second == keycap || second == as_emoji;
  if (second == as_emoji) return has(first, UCHAR_EMOJI);
  if (first < first_emoji) return false;
  return has(first, UCHAR_EMOJI_PRESENTATION) || (is_modifier(second) && has(first, UCHAR_EMOJI_MODIFIER_BASE)) ||
         (has(first, UCHAR_EXTENDED_PICTOGRAPHIC) && joins_pictures(letters, 1));
}

}  // namespace

std::size_t emoji_length(std::span<const Letter> letters) {
  if (!begins_emoji(letters)) return 0;
  std::size_t length = is_region(at(letters, 0)) && is_region(at(letters, 1)) ? 2 : 1;
  for (;;) {
    const char32_t next = at(letters, length);
    if (next == as_emoji || next == as_text || next == keycap || is_modifier(next) || is_tag(next))
      ++length;
    else if (joins_pictures(letters, length))
      length += 2;
    else
      return length;
  }
}

}  // namespace ordinatio::inline cleaning
