#include <unicode/casemap.h>
#include <unicode/locid.h>
#include <unicode/stringoptions.h>
#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "base/utf8.h"
#include "cleaning/letters.h"
#include "text/text.h"
#include "text/words.h"

namespace ordinatio::inline text {
namespace {

bool is_greek(char32_t c) { return script_of(c) == USCRIPT_GREEK; }

/// Letters of the alphabets that part a dotted from a dotless i (Turkish, Azeri, Crimean Tatar and their kin), and of no
/// other language's (CLDR 42, exemplar characters).
bool tells_turkish(char32_t c) { return c == U'ı' || c == U'İ' || c == U'ğ' || c == U'Ğ'; }

bool has_any(std::string_view text, bool (*predicate)(char32_t)) {
  return !all_characters(text, [predicate](char32_t c) { return !predicate(c); });
}

/// The rules of the text's language; empty where it has none of its own (from memory: ICU knows tr, az, lt, nl, hy, el).
std::string casing_locale(std::string_view language) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Locale locale = icu::Locale::forLanguageTag(std::string(language), status);
  const std::string own = U_SUCCESS(status) ? locale.getLanguage() : "";
  constexpr std::array<std::string_view, 6> with_rules{"tr", "az", "lt", "nl", "hy", "el"};
  return std::ranges::find(with_rules, own) != with_rules.end() ? own : "";
}

/// These have it, too, and some languages besides: it tells in a line with a word that does.
bool may_be_turkish(char32_t c) { return tells_turkish(c) || c == U'ş' || c == U'Ş'; }

/// The rules of a line's words: those of the text's language, but of another one's where a word's letters tell it.
struct CasingRules {
  std::string of_text;
  bool turkish_line = false;  // some word of it is Turkish

  [[nodiscard]] std::string locale_of(std::string_view word) const {
    if (has_any(word, is_greek)) return "el";
    const bool turkish = has_any(word, turkish_line ? may_be_turkish : tells_turkish);
    return turkish && of_text != "az" ? "tr" : of_text;
  }
};

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

/// ß, which few keyboards have as a capital, stands among capitals, too.
bool has_small_letter(std::string_view word) {
  return has_any(word, [](char32_t c) { return c != U'ß' && u_isULowercase(static_cast<UChar32>(c)) != 0; });
}

/// O'NEILL, MCNEILL: what follows the Irish O or the Mc is a name of its own. 0: no such name.
std::size_t gaelic_prefix(std::string_view word) {
  constexpr std::size_t shortest_name = 3;  // MCNAB; MC alone, or MCI, is something else
  for (const std::string_view prefix : {"O'", "O’"}) {
    if (word.starts_with(prefix) && word.size() > prefix.size()) return prefix.size();
  }
  return word.starts_with("MC") && bare_word(word).size() >= 2 + shortest_name && !has_small_letter(word) ? 2 : 0;
}

/// Takes one decimal place of a Roman number from the front: of IV, IX, V, VI … by its signs for 1, 5 and 10.
void drop_roman_place(std::string_view& number, char one, char five, char ten) {
  if (number.starts_with(std::string{one, five}) || number.starts_with(std::string{one, ten})) {
    number.remove_prefix(2);
    return;
  }
  if (number.starts_with(five)) number.remove_prefix(1);
  for (int ones = 0; ones < 3 && number.starts_with(one); ++ones) number.remove_prefix(1);
}

/// MCMLXXIV: a year of the builder's. Shorter ones may be names (LIV, DIX).
bool is_roman_year(std::string_view bare) {
  constexpr std::size_t fewest = 5;
  if (bare.size() < fewest) return false;
  for (int thousands = 0; thousands < 3 && bare.starts_with('M'); ++thousands) bare.remove_prefix(1);
  drop_roman_place(bare, 'C', 'D', 'M');
  drop_roman_place(bare, 'X', 'L', 'C');
  drop_roman_place(bare, 'I', 'V', 'X');
  return bare.empty();
}

std::string titled_part(std::string_view word, const std::string& locale) {
  if (const std::size_t prefix = gaelic_prefix(word); prefix > 0)
    return mapped(word.substr(0, prefix), LetterCase::title, locale) + titled_part(word.substr(prefix), locale);
  return mapped(word, LetterCase::title, locale, has_small_letter(word) ? U_TITLECASE_NO_LOWERCASE : 0);
}

std::string titled(std::string_view word, const std::string& locale) {
  const std::string_view bare = bare_word(word);
  const bool stays = is_initials(bare) || is_roman_year(bare) || is_generation(bare, "es");  // "es": JR. is no numeral
  if (stays) return std::string(word);
  std::string title;
  for (std::size_t begin = 0; begin <= word.size();) {  // each part of a double name is a name: Mill-McNeill
    const std::size_t end = std::min(word.find('-', begin), word.size());
    title += titled_part(word.substr(begin, end - begin), locale);
    if (end < word.size()) title += '-';
    begin = end + 1;
  }
  return title;
}

/// Lithuanian small letters write their dot where an accent stands above it, capitals lose it (SpecialCasing.txt,
/// After_Soft_Dotted): ICU 72 forgets that in titles.
void undot_lithuanian_capitals(std::string& text) {
  constexpr std::string_view dot = "\u0307";
  for (const std::string_view capital : {"I", "J", "Į"}) {
    const std::string dotted = std::string(capital) + std::string(dot);
    for (std::size_t at = text.find(dotted); at != std::string::npos; at = text.find(dotted, at))
      text.erase(at + capital.size(), dot.size());
  }
}

std::string word_in_case(std::string_view word, LetterCase letter_case, const std::string& locale) {
  if (letter_case != LetterCase::title) return mapped(word, letter_case, locale);
  std::string title = titled(word, locale);
  if (locale == "lt") undot_lithuanian_capitals(title);
  return title;
}

std::string composed(const std::string& text) {
  Result<Letters> letters = read_letters(text);
  if (!letters.ok()) return text;  // it came in as it goes out
  compose(*letters);
  return write_letters(*letters);
}

}  // namespace

std::string in_case(std::string_view line, LetterCase letter_case, std::string_view language) {
  if (letter_case == LetterCase::as_typed) return std::string(line);
  const CasingRules rules{casing_locale(language), has_any(line, tells_turkish)};
  std::string result;
  for (std::size_t begin = 0; begin <= line.size();) {
    const std::size_t end = std::min(line.find(' ', begin), line.size());
    const std::string_view word = line.substr(begin, end - begin);
    result += word_in_case(word, letter_case, rules.locale_of(word));
    if (end < line.size()) result += ' ';
    begin = end + 1;
  }
  return composed(result);
}

}  // namespace ordinatio::inline text
