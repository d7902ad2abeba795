#include "base/utf8.h"

#include <algorithm>

namespace ordinatio::inline base {

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"  // inside ICU's macro
std::optional<char32_t> read_character(std::string_view text, std::size_t& at) {
  UChar32 character = 0;
  U8_NEXT(text, at, text.size(), character);
  if (character < 0) return std::nullopt;
  return static_cast<char32_t>(character);
}
#pragma GCC diagnostic pop

std::size_t count_characters(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return !continues_character(c); }));
}

void append_utf8(std::string& out, char32_t character) {
  char bytes[U8_MAX_LENGTH];
  std::size_t length = 0;
  U8_APPEND_UNSAFE(bytes, length, character);
  out.append(bytes, length);
}

}  // namespace ordinatio::inline base
