// In: UTF-8 (RFC 3629). Out: its code points, one at a time. Never: judges them. The only home of such steps.
#pragma once

#include <unicode/utf8.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace ordinatio::inline base {

/// Whether the byte is not the first of its character.
inline bool continues_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

/// The code point that begins at byte `at` of valid UTF-8; `at` moves behind it.
inline char32_t next_character(std::string_view text, std::size_t& at) {
  const char* bytes = text.data();
  UChar32 character = 0;
  U8_NEXT_UNSAFE(bytes, at, character);
  return static_cast<char32_t>(character);
}

/// The same of what may not be valid: nothing where it is not, and `at` moves behind what is broken.
std::optional<char32_t> read_character(std::string_view text, std::size_t& at);

/// The code point that ends before byte `at` of valid UTF-8, which moves to its beginning.
inline char32_t previous_character(std::string_view text, std::size_t& at) {
  do --at;
  while (at > 0 && continues_character(text[at]));
  std::size_t begin = at;
  return next_character(text, begin);
}

/// Of valid UTF-8.
template <class Predicate>
bool all_characters(std::string_view text, Predicate predicate) {
  for (std::size_t at = 0; at < text.size();) {
    if (!predicate(next_character(text, at))) return false;
  }
  return true;
}

/// Of valid UTF-8: how many code points it has.
std::size_t count_characters(std::string_view text);

void append_utf8(std::string& out, char32_t character);

}  // namespace ordinatio::inline base
