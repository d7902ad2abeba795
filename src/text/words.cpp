#include "text/words.h"

#include <unicode/dtfmtsym.h>
#include <unicode/uchar.h>

#include <algorithm>
#include <array>

#include "base/utf8.h"

namespace ordinatio::inline text {
namespace {

bool has_type(char32_t c, std::uint32_t mask) { return (U_MASK(u_charType(static_cast<UChar32>(c))) & mask) != 0; }
bool is_letter(char32_t c) { return has_type(c, U_GC_L_MASK); }
bool is_capital(char32_t c) { return has_type(c, U_GC_LU_MASK | U_GC_LT_MASK); }
bool is_decimal_digit(char32_t c) { return has_type(c, U_GC_ND_MASK); }
bool is_mark_of_letter(char32_t c) { return has_type(c, U_GC_M_MASK); }
bool is_quote(char32_t c) { return c == '"' || c == '\'' || has_type(c, U_GC_PI_MASK | U_GC_PF_MASK); }
bool surrounds(char32_t c) { return is_quote(c) || has_type(c, U_GC_PS_MASK | U_GC_PE_MASK); }

bool ends_clause(char32_t c) { return std::u32string_view(U",;:!?،؛؟").find(c) != std::u32string_view::npos; }

}  // namespace

std::string_view bare_word(std::string_view word) {
  std::size_t first = 0, last = word.size();
  for (std::size_t at = 0; at < word.size() && surrounds(next_character(word, at));) first = at;
  for (std::size_t at = last; at > first;) {
    const char32_t c = previous_character(word, at);
    if (!surrounds(c) && !ends_clause(c)) break;
    last = at;
  }
  return word.substr(first, last - first);
}

std::string folded_word(std::string_view bare) {
  std::string folded;
  if (bare.ends_with('.')) bare.remove_suffix(1);
  for (std::size_t at = 0; at < bare.size();) {
    append_utf8(folded, static_cast<char32_t>(u_tolower(static_cast<UChar32>(next_character(bare, at)))));
  }
  return folded;
}

bool is_initials(std::string_view bare) {
  if (!bare.ends_with('.')) return false;
  for (std::size_t at = 0; at < bare.size();) {
    if (!is_capital(next_character(bare, at))) return false;
    std::size_t next = at;
    char32_t c = next_character(bare, next);
    while (is_mark_of_letter(c) && next < bare.size()) c = next_character(bare, next);
    if (c != '.') return false;
    at = next < bare.size() && bare[next] == '-' ? next + 1 : next;
  }
  return true;
}

bool is_single_capital(std::string_view bare) {
  std::size_t at = 0;
  return !bare.empty() && is_capital(next_character(bare, at)) && all_characters(bare.substr(at), is_mark_of_letter);
}

bool is_capitalised(std::string_view bare) {
  std::size_t at = 0;
  return !bare.empty() && is_capital(next_character(bare, at));
}

bool is_name(std::string_view word) {
  const auto belongs = [](char32_t c) {
    return is_letter(c) || is_mark_of_letter(c) || c == '-' || c == 0x2010 || c == '\'' || c == 0x2019;
  };
  return is_capitalised(word) && all_characters(word, belongs);
}

bool is_number(std::string_view bare) {
  std::size_t at = 0;
  if (bare.empty() || !is_decimal_digit(next_character(bare, at))) return false;
  return all_characters(bare.substr(at), [](char32_t c) {
    return is_decimal_digit(c) || has_type(c, U_GC_NO_MASK) ||
           std::u32string_view(U".,'’/:-–").find(c) != std::u32string::npos;
  });
}

bool is_day(std::string_view bare) {
  std::size_t digits = 0;
  while (digits < bare.size() && bare[digits] >= '0' && bare[digits] <= '9') ++digits;
  if (digits == 0 || digits > 2) return false;
  constexpr std::array<std::string_view, 9> endings{"", ".", "st", "nd", "rd", "th", "er", "º", "ª"};
  return std::ranges::find(endings, bare.substr(digits)) != endings.end();
}

bool is_year(std::string_view bare) {
  for (const std::string_view apostrophe : {"'", "’"}) {
    if (bare.starts_with(apostrophe)) bare.remove_prefix(apostrophe.size());
  }
  if (bare.ends_with('.')) bare.remove_suffix(1);
  return (bare.size() == 4 || bare.size() == 2) && all_characters(bare, is_decimal_digit);
}

bool is_dash(std::string_view word) { return word == "-" || word == "–" || word == "—" || word == "−"; }

bool is_sign(std::string_view word) {
  return all_characters(word, [](char32_t c) { return !has_type(c, U_GC_L_MASK | U_GC_N_MASK | U_GC_M_MASK); });
}

namespace {

void append_months(std::vector<std::string>& names, const char* language) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::DateFormatSymbols symbols(icu::Locale::forLanguageTag(language, status), status);
  if (U_FAILURE(status)) return;  // no language that ICU knows: no months are known in it
  using Symbols = icu::DateFormatSymbols;
  for (const auto context : {Symbols::FORMAT, Symbols::STANDALONE}) {
    for (const auto width : {Symbols::WIDE, Symbols::ABBREVIATED}) {
      std::int32_t count = 0;
      const icu::UnicodeString* months = symbols.getMonths(count, context, width);
      for (std::int32_t i = 0; i < count; ++i) {
        std::string name;
        months[i].toUTF8String(name);
        names.push_back(folded_word(name));
      }
    }
  }
}

}  // namespace

bool MonthNames::contains(std::string_view folded, std::string_view language) {
  auto known = by_language_.find(language);
  if (known == by_language_.end()) {
    known = by_language_.emplace(language, std::vector<std::string>{}).first;
    append_months(known->second, known->first.c_str());
    append_months(known->second, "en");
  }
  return std::ranges::find(known->second, folded) != known->second.end();
}

}  // namespace ordinatio::inline text
