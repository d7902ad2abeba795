#include "base/harmless.h"

#include <array>
#include <optional>

namespace ordinatio::inline base {
namespace {

/// A character and how many bytes it takes; without a character: one byte that is no UTF-8.
struct Decoded {
  std::optional<char32_t> character;
  std::size_t bytes = 1;
};

/// RFC 3629: no surrogates, nothing overlong, nothing above U+10FFFF.
Decoded decoded(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return {first, 1};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < length) return {};
  char32_t character = first & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    character = (character << 6U) | (byte(i) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  const bool is_surrogate = character >= 0xD800 && character <= 0xDFFF;
  if (character < least[length] || character > 0x10FFFF || is_surrogate) return {};
  return {character, length};
}

bool is_line_end_or_tab(char32_t c) { return c == '\n' || c == '\r' || c == '\t'; }
/// A carriage return alone would write over the line.
bool may_stay(std::string_view rest) {
  return rest.front() == '\n' || rest.front() == '\t' || rest.starts_with("\r\n");
}

/// Bidi_Control of PropList.txt, Unicode 15.0, and U+2028 and U+2029.
bool turns_reading(char32_t c) {
  return c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}
bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c <= 0x9F); }

std::string hexadecimal(char32_t c) {
  std::string digits;
  for (int shift = 12; shift >= 0; shift -= 4) digits += "0123456789ABCDEF"[(c >> static_cast<unsigned>(shift)) & 0xFU];
  return digits;
}

/// U+2400 on are pictures of the first 32 characters.
std::string picture_of(char32_t c) {
  if (c < 0x20) return std::string("\u2400").replace(2, 1, 1, static_cast<char>(0x80 + c));
  if (c == 0x7F) return "\u2421";
  return "\u2039U+" + hexadecimal(c) + "\u203A";
}

}  // namespace

bool steers(std::string_view text, bool line_ends) {
  for (std::size_t at = 0; at < text.size();) {
    const auto [character, bytes] = decoded(text.substr(at));
    at += bytes;
    if (!character || (!line_ends && is_line_end_or_tab(*character))) continue;
    if (is_control(*character) || turns_reading(*character)) return true;
  }
  return false;
}

std::string harmless(std::string_view text, bool keep_line_ends) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const auto [character, bytes] = decoded(text.substr(at));
    if (!character) {
      plain += "\uFFFD";
    } else if (keep_line_ends && may_stay(text.substr(at))) {
      plain += text[at];
    } else if (is_control(*character) || turns_reading(*character)) {
      plain += picture_of(*character);
    } else {
      plain += text.substr(at, bytes);
    }
    at += bytes;
  }
  return plain;
}

std::string with_escaped_marks(std::string_view json) {
  std::string escaped;
  escaped.reserve(json.size());
  for (std::size_t at = 0; at < json.size();) {
    const auto [character, bytes] = decoded(json.substr(at));
    const bool escapes = character && (turns_reading(*character) || (*character >= 0x7F && *character <= 0x9F));
    escapes ? escaped += "\\u" + hexadecimal(*character) : escaped += json.substr(at, bytes);
    at += bytes;
  }
  return escaped;
}

}  // namespace ordinatio::inline base
