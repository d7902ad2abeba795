#include <unicode/ubrk.h>
#include <unicode/uchar.h>
#include <unicode/utext.h>

#include <array>
#include <memory>
#include <stdexcept>

#include "cleaning/cleaning.h"

namespace ordinatio::inline cleaning {
namespace {

// Unicode gives controls no names, only aliases: the first of each in NameAliases.txt, U+0000–001F and U+007F–009F.
// clang-format off
constexpr std::array<std::string_view, 32> c0_names = {
    "NULL", "START OF HEADING", "START OF TEXT", "END OF TEXT", "END OF TRANSMISSION", "ENQUIRY",
    "ACKNOWLEDGE", "ALERT", "BACKSPACE", "CHARACTER TABULATION", "LINE FEED", "LINE TABULATION",
    "FORM FEED", "CARRIAGE RETURN", "SHIFT OUT", "SHIFT IN", "DATA LINK ESCAPE", "DEVICE CONTROL ONE",
    "DEVICE CONTROL TWO", "DEVICE CONTROL THREE", "DEVICE CONTROL FOUR", "NEGATIVE ACKNOWLEDGE",
    "SYNCHRONOUS IDLE", "END OF TRANSMISSION BLOCK", "CANCEL", "END OF MEDIUM", "SUBSTITUTE", "ESCAPE",
    "INFORMATION SEPARATOR FOUR", "INFORMATION SEPARATOR THREE", "INFORMATION SEPARATOR TWO",
    "INFORMATION SEPARATOR ONE",
};
constexpr std::array<std::string_view, 33> c1_names = {
    "DELETE", "PADDING CHARACTER", "HIGH OCTET PRESET", "BREAK PERMITTED HERE", "NO BREAK HERE", "INDEX",
    "NEXT LINE", "START OF SELECTED AREA", "END OF SELECTED AREA", "CHARACTER TABULATION SET",
    "CHARACTER TABULATION WITH JUSTIFICATION", "LINE TABULATION SET", "PARTIAL LINE FORWARD",
    "PARTIAL LINE BACKWARD", "REVERSE LINE FEED", "SINGLE SHIFT TWO", "SINGLE SHIFT THREE",
    "DEVICE CONTROL STRING", "PRIVATE USE ONE", "PRIVATE USE TWO", "SET TRANSMIT STATE", "CANCEL CHARACTER",
    "MESSAGE WAITING", "START OF GUARDED AREA", "END OF GUARDED AREA", "START OF STRING",
    "SINGLE GRAPHIC CHARACTER INTRODUCER", "SINGLE CHARACTER INTRODUCER", "CONTROL SEQUENCE INTRODUCER",
    "STRING TERMINATOR", "OPERATING SYSTEM COMMAND", "PRIVACY MESSAGE", "APPLICATION PROGRAM COMMAND",
};
// clang-format on

std::string code_point(char32_t character) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string hex;
  for (; character != 0 || hex.size() < 4; character >>= 4) hex.insert(hex.begin(), digits[character & 15]);
  return "U+" + hex;
}

std::string name_alone(char32_t character) {
  if (character < 0x20) return std::string(c0_names[character]);
  if (character >= 0x7F && character < 0xA0) return std::string(c1_names[character - 0x7F]);
  const auto code = static_cast<UChar32>(character);
  if (character > UCHAR_MAX_VALUE || U_IS_UNICODE_NONCHAR(code)) return "(not a character)";
  switch (u_charType(code)) {
    case U_SURROGATE:
      return "(half of a UTF-16 pair)";
    case U_PRIVATE_USE_CHAR:
      return "(private use)";
    case U_UNASSIGNED:
      return "(unassigned)";
    default:
      break;
  }
  char name[128];  // the longest name of Unicode 15.0 has 88 letters; a longer one would come back as an error
  UErrorCode status = U_ZERO_ERROR;
  const std::int32_t length = u_charName(code, U_UNICODE_CHAR_NAME, name, sizeof name, &status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU has no character names");
  return {name, static_cast<std::size_t>(length)};
}

/// ICU's iterator takes some 10 µs to make: one a thread.
struct GraphemeIterator {
  struct Close {
    void operator()(UBreakIterator* opened) const { ubrk_close(opened); }
    void operator()(UText* opened) const { utext_close(opened); }
  };
  UErrorCode status = U_ZERO_ERROR;
  std::unique_ptr<UText, Close> text{utext_openUTF8(nullptr, "", 0, &status)};
  // The root locale: UAX #29 without any language's tailoring.
  std::unique_ptr<UBreakIterator, Close> iterator{ubrk_open(UBRK_CHARACTER, "", nullptr, 0, &status)};

  UBreakIterator* over(std::string_view bytes) {
    utext_openUTF8(text.get(), bytes.data(), static_cast<std::int64_t>(bytes.size()), &status);
    ubrk_setUText(iterator.get(), text.get(), &status);
    if (U_FAILURE(status)) throw std::runtime_error("ICU has no grapheme rules");
    return iterator.get();
  }
};

}  // namespace

std::string character_name(char32_t character) { return code_point(character) + " " + name_alone(character); }

std::vector<std::string_view> graphemes_of(std::string_view text) {
  thread_local GraphemeIterator graphemes;
  std::vector<std::string_view> parts;
  if (text.empty()) return parts;
  UBreakIterator* iterator = graphemes.over(text);
  auto start = static_cast<std::size_t>(ubrk_first(iterator));
  for (std::int32_t end = ubrk_next(iterator); end != UBRK_DONE; end = ubrk_next(iterator)) {
    parts.push_back(text.substr(start, static_cast<std::size_t>(end) - start));
    start = static_cast<std::size_t>(end);
  }
  return parts;
}

}  // namespace ordinatio::inline cleaning
