// Stepping through valid UTF-8, one code point at a time. Of this folder alone.
#pragma once

#include <unicode/utf8.h>

#include <cstddef>
#include <string_view>

namespace ordinatio {

/// The code point that begins at byte `at`, which moves behind it.
inline char32_t next_character(std::string_view text, std::size_t& at) {
  const char* bytes = text.data();
  UChar32 character = 0;
  U8_NEXT_UNSAFE(bytes, at, character);
  return static_cast<char32_t>(character);
}

/// The code point that ends before byte `at`, which moves to its beginning.
inline char32_t previous_character(std::string_view text, std::size_t& at) {
  do --at;
  while (at > 0 && (text[at] & 0xC0) == 0x80);
  std::size_t begin = at;
  return next_character(text, begin);
}

template <class Predicate>
bool all_characters(std::string_view text, Predicate predicate) {
  for (std::size_t at = 0; at < text.size();) {
    if (!predicate(next_character(text, at))) return false;
  }
  return true;
}

}  // namespace ordinatio
