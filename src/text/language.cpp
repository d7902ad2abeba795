#include <unicode/ucnv.h>
#include <unicode/unistr.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <stdexcept>

#include "text/face.h"

namespace ordinatio {
namespace {

using Converter = std::unique_ptr<UConverter, Destroyer<ucnv_close>>;

bool has_script(const std::u32string& letters, UScriptCode script) {
  return std::ranges::any_of(letters, [script](char32_t c) {
    UErrorCode status = U_ZERO_ERROR;
    return uscript_getScript(static_cast<UChar32>(c), &status) == script;
  });
}

bool has_any(const std::u32string& letters, std::u32string_view wanted) {
  return letters.find_first_of(wanted) != letters.npos;
}

/// Whether a national character set holds every Han character of the text.
bool is_held_by(const char* charset, const std::u32string& letters) {
  UErrorCode status = U_ZERO_ERROR;
  const Converter converter(ucnv_open(charset, &status));
  if (U_FAILURE(status)) return false;
  ucnv_setFromUCallBack(converter.get(), UCNV_FROM_U_CALLBACK_STOP, nullptr, nullptr, nullptr, &status);
  for (const char32_t letter : letters) {
    UErrorCode script_status = U_ZERO_ERROR;
    if (uscript_getScript(static_cast<UChar32>(letter), &script_status) != USCRIPT_HAN) continue;
    const icu::UnicodeString units(static_cast<UChar32>(letter));
    char bytes[16];
    ucnv_fromUChars(converter.get(), bytes, sizeof bytes, units.getBuffer(), units.length(), &status);
    if (U_FAILURE(status)) return false;
  }
  return true;
}

std::u32string letters_in(const std::vector<std::string>& lines) {
  std::u32string letters;
  for (const std::string& line : lines) {
    const auto units = icu::UnicodeString::fromUTF8(line);
    for (std::int32_t i = 0; i < units.length(); i = units.moveIndex32(i, 1)) {
      letters += static_cast<char32_t>(units.char32At(i));
    }
  }
  return letters;
}

}  // namespace

std::string told_language(const std::vector<std::string>& lines) {
  const auto is_ascii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
  if (std::ranges::all_of(lines, [&](const std::string& line) { return std::ranges::all_of(line, is_ascii); }))
    return "";
  const std::u32string letters = letters_in(lines);
  if (has_script(letters, USCRIPT_HIRAGANA) || has_script(letters, USCRIPT_KATAKANA)) return "ja";
  if (has_script(letters, USCRIPT_HANGUL)) return "ko";
  // Letters that Persian and Urdu have and Arabic has not; the first set only Urdu (from memory).
  if (has_any(letters, U"ٹڈڑںھہۂےۓ")) return "ur";
  if (has_any(letters, U"پچژگکی")) return "fa";
  if (has_script(letters, USCRIPT_ARABIC)) return "ar";
  if (has_script(letters, USCRIPT_HAN)) {
    return !is_held_by("gb2312", letters) && is_held_by("Big5", letters) ? "zh-Hant" : "zh-Hans";
  }
  return "";
}

}  // namespace ordinatio
