#include <unicode/casemap.h>
#include <unicode/locid.h>
#include <unicode/stringoptions.h>
#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "text/code_points.h"
#include "text/letters.h"
#include "text/text.h"
#include "text/words.h"

namespace ordinatio {
namespace {

bool is_greek(char32_t c) {
  UErrorCode status = U_ZERO_ERROR;
  return uscript_getScript(static_cast<UChar32>(c), &status) == USCRIPT_GREEK;
}

/// The locale by whose rules a line changes its case. Greek letters go by Greek rules in every language that has no rules
/// of its own (from memory: ICU knows tr, az, lt, nl, hy and el), which touch no others.
std::string casing_locale(std::string_view line, std::string_view language) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Locale locale = icu::Locale::forLanguageTag(std::string(language), status);
  const std::string own = U_SUCCESS(status) ? locale.getLanguage() : "";
  constexpr std::array<std::string_view, 6> with_rules{"tr", "az", "lt", "nl", "hy", "el"};
  if (std::ranges::find(with_rules, own) != with_rules.end()) return own;
  return all_characters(line, [](char32_t c) { return !is_greek(c); }) ? "" : "el";
}

std::string mapped(std::string_view text, LetterCase letter_case, const std::string& locale,
                   std::uint32_t options = 0) {
  const icu::StringPiece source(text.data(), static_cast<std::int32_t>(text.size()));
  std::string result;
  icu::StringByteSink<std::string> sink(&result);
  UErrorCode status = U_ZERO_ERROR;
  if (letter_case == LetterCase::upper)
    icu::CaseMap::utf8ToUpper(locale.c_str(), options, source, sink, nullptr, status);
  else if (letter_case == LetterCase::lower)
    icu::CaseMap::utf8ToLower(locale.c_str(), options, source, sink, nullptr, status);
  else
    icu::CaseMap::utf8ToTitle(locale.c_str(), options, nullptr, source, sink, nullptr, status);
  if (U_FAILURE(status)) throw std::runtime_error("ICU could not change a line's case");
  return result;
}

bool has_small_letter(std::string_view word) {
  return !all_characters(word, [](char32_t c) { return !u_isULowercase(static_cast<UChar32>(c)); });
}

/// O'NEILL: what follows the Irish O is a name of its own.
std::size_t irish_prefix(std::string_view word) {
  for (const std::string_view prefix : {"O'", "O’"}) {
    if (word.starts_with(prefix)) return prefix.size();
  }
  return 0;
}

std::string titled(std::string_view word, const std::string& locale) {
  const std::string_view bare = bare_word(word);
  if (is_initials(bare) || is_generation(bare, "es")) return std::string(word);  // "es": JR. is no numeral, III is
  if (const std::size_t prefix = irish_prefix(word); prefix > 0 && prefix < word.size())
    return std::string(word.substr(0, prefix)) + titled(word.substr(prefix), locale);
  return mapped(word, LetterCase::title, locale, has_small_letter(word) ? U_TITLECASE_NO_LOWERCASE : 0);
}

std::string titled_words(std::string_view line, const std::string& locale) {
  std::string result;
  for (std::size_t begin = 0; begin <= line.size();) {
    const std::size_t end = std::min(line.find(' ', begin), line.size());
    result += titled(line.substr(begin, end - begin), locale);
    if (end < line.size()) result += ' ';
    begin = end + 1;
  }
  return result;
}

/// Lithuanian small letters write their dot where an accent stands above it, capitals lose it (SpecialCasing.txt,
/// After_Soft_Dotted): ICU 72 forgets that in titles.
void undot_lithuanian_capitals(std::string& text) {
  constexpr std::string_view dot = "\u0307";
  for (const std::string_view capital : {"I", "J", "Į"}) {
    const std::string dotted = std::string(capital) + std::string(dot);
    for (std::size_t at = text.find(dotted); at != text.npos; at = text.find(dotted, at))
      text.erase(at + capital.size(), dot.size());
  }
}

std::string composed(const std::string& text) {
  Result<Letters> letters = read_letters(text);
  if (!letters) return text;  // it came in as it goes out
  compose(*letters);
  return write_letters(*letters);
}

}  // namespace

std::string in_case(std::string_view line, LetterCase letter_case, std::string_view language) {
  if (letter_case == LetterCase::as_typed) return std::string(line);
  const std::string locale = casing_locale(line, language);
  if (letter_case != LetterCase::title) return composed(mapped(line, letter_case, locale));
  std::string title = titled_words(line, locale);
  if (locale == "lt") undot_lithuanian_capitals(title);
  return composed(title);
}

}  // namespace ordinatio
