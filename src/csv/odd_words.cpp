#include "csv/odd_words.h"

#include <unicode/uchar.h>
#include <unicode/ulocdata.h>
#include <unicode/uscript.h>
#include <unicode/uset.h>

#include <algorithm>
#include <memory>
#include <set>

namespace ordinatio::inline csv {
namespace {

// Languages of exports in one byte a letter. Faroese is left out: its ø beside í is Czech in the wrong encoding far more
// often (own judgement).
constexpr const char* languages[] = {"af", "az", "be", "bg", "br", "ca", "cs", "cy", "da", "de", "el",
                                     "es", "et", "eu", "fi", "fr", "fy", "ga", "gd", "gl", "hr", "hu",
                                     "is", "it", "lb", "lt", "lv", "mk", "mt", "nb", "nl", "pl", "pt",
                                     "rm", "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk"};

using Word = std::u32string_view;

UChar32 code(char32_t c) { return static_cast<UChar32>(c); }
bool is_one_of(char32_t c, Word list) { return list.find(c) != Word::npos; }
/// º and ª stand for the end of a word, and ˇ is an accent alone: signs, though Unicode has them among the letters.
bool is_letter(char32_t c) {
  if (is_one_of(c, U"ºª") || u_charType(code(c)) == U_MODIFIER_LETTER) return false;
  return u_isalpha(code(c)) || (U_GET_GC_MASK(code(c)) & U_GC_M_MASK) != 0;
}
bool is_space(char32_t c) { return c == 0xA0 || c == 0xAD || u_isUWhiteSpace(code(c)); }
bool is_lost(char32_t c) { return c == 0xFFFD || (c >= 0x80 && c < 0xA0); }
char32_t small(char32_t c) { return static_cast<char32_t>(u_tolower(code(c))); }

/// The letters before and behind a sign in a word.
struct Around {
  Word before, behind;
};

Around around(Word word, std::size_t at) {
  std::size_t begin = at, end = at + 1;
  while (begin > 0 && is_letter(word[begin - 1])) --begin;
  while (end < word.size() && is_letter(word[end])) ++end;
  return {word.substr(begin, at - begin), word.substr(at + 1, end - at - 1)};
}

/// O’Brien, dell’Arte, aujourd’hui, Tilda’s, don’t.
bool is_apostrophe(const Around& around) {
  constexpr Word tails[] = {U"s", U"S", U"t", U"T", U"d", U"D", U"m", U"n", U"r", U"ll", U"ve", U"re", U"em"};
  if (around.before.size() <= 2 || around.behind.empty()) return true;
  if (std::ranges::find(tails, around.behind) != std::end(tails)) return true;
  return around.behind.size() >= 3 || u_isupper(code(around.behind.front()));
}

/// What a sign that is no letter does in a word.
int oddness_of_sign(char32_t sign, const Around& around) {
  const std::size_t before = around.before.size(), behind = around.behind.size();
  const bool within = before > 0 && behind > 0;
  const auto odd_if = [](bool odd, int how) { return odd ? how : oddness::none; };
  if (before + behind == 0) return oddness::none;
  if (sign == U'’') return odd_if(!is_apostrophe(around), oddness::unusual);
  if (is_one_of(sign, U"–—")) return odd_if(within, oddness::unusual);
  if (sign == U'…') return odd_if(behind > 0, oddness::unusual);
  if (is_one_of(sign, U"“”«»‹›")) return odd_if(within, oddness::certain);
  if (sign == U'‘') return within ? oddness::certain : odd_if(before > 0, oddness::unusual);
  if (is_one_of(sign, U"„‚")) return odd_if(before > 0, oddness::certain);
  if (is_one_of(sign, U"¿¡")) return before > 0 ? oddness::certain : oddness::unusual;
  if (is_one_of(sign, U"™®©")) return odd_if(behind > 0, oddness::certain);
  if (is_one_of(sign, U"ºª")) return odd_if(behind > 0 || before > 2, oddness::certain);   // Nº, Mª
  if (is_one_of(sign, U"¹²³")) return odd_if(behind > 0 || before > 2, oddness::certain);  // m², km²
  if (sign == U'°') return odd_if(before > 1 || behind > 1 || within, oddness::certain);   // N°, °C
  if (sign == U'·') return odd_if(!around.before.ends_with(U'l') && !around.before.ends_with(U'L'), oddness::unusual);
  if (is_one_of(sign, U"´`")) return oddness::unusual;  // typed for an apostrophe
  return oddness::certain;
}

bool is_vowel(char32_t c) { return is_one_of(small(c), U"aeiouyáàâäãåéèêëíìîïóòôöõøúùûüýæœ"); }

/// Letters that words have, where they seldom have them.
int oddness_of_letter(Word word, std::size_t at) {
  const bool first = at == 0 || !is_letter(word[at - 1]), last = at + 1 == word.size() || !is_letter(word[at + 1]);
  const char32_t c = small(word[at]);
  if (c == U'œ' && last) return oddness::unusual;             // cœur, œuf
  if (is_one_of(c, U"ìù") && !last) return oddness::unusual;  // Lunedì, più
  if (is_one_of(c, U"šž") && !first && !last && !is_vowel(word[at - 1]) && !is_vowel(word[at + 1]))
    return oddness::unusual;
  return oddness::none;
}

/// `JosŽ`, `MŸller`: a capital behind a small letter, one of them beyond ASCII; McDonald is none. `JOSé` is unusual.
int oddness_of_case(Word word, std::size_t at) {
  if (at == 0 || (word[at] < 0x80 && word[at - 1] < 0x80)) return oddness::none;
  if (u_isUUppercase(code(word[at])) && u_isULowercase(code(word[at - 1]))) return oddness::certain;
  const bool two_capitals = at >= 2 && u_isUUppercase(code(word[at - 1])) && u_isUUppercase(code(word[at - 2]));
  return two_capitals && u_isULowercase(code(word[at])) ? oddness::unusual : oddness::none;
}

UScriptCode script_of(char32_t c) {
  UErrorCode status = U_ZERO_ERROR;
  return uscript_getScript(code(c), &status);
}

bool mixes_scripts(Word word) {
  UScriptCode first = USCRIPT_COMMON;
  for (const char32_t c : word) {
    const UScriptCode script = script_of(c);
    if (script == USCRIPT_COMMON || script == USCRIPT_INHERITED) continue;
    if (first != USCRIPT_COMMON && script != first) return true;
    first = script;
  }
  return false;
}

/// Only scripts whose languages are all among those above.
bool has_alphabet(char32_t c) {
  const UScriptCode script = script_of(c);
  return script == USCRIPT_LATIN || script == USCRIPT_CYRILLIC || script == USCRIPT_GREEK;
}

/// `Àííà` is Cyrillic read as Latin: hardly a Latin word has more than two thirds of its letters beyond ASCII.
bool is_heavy(Word word) {
  const auto letters = std::ranges::count_if(word, is_letter);
  const auto beyond = std::ranges::count_if(
      word, [](char32_t c) { return c >= 0x80 && is_letter(c) && script_of(c) == USCRIPT_LATIN; });
  return beyond >= 3 && 3 * beyond > 2 * letters;
}

std::u32string alphabet_of(const char* language) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<ULocaleData, void (*)(ULocaleData*)> data(ulocdata_open(language, &status), ulocdata_close);
  if (U_FAILURE(status)) return {};
  const std::unique_ptr<USet, void (*)(USet*)> set(
      ulocdata_getExemplarSet(data.get(), nullptr, 0, ULOCDATA_ES_STANDARD, &status), uset_close);
  std::u32string letters;
  for (std::int32_t i = 0, all = U_SUCCESS(status) ? uset_size(set.get()) : 0; i < all; ++i) {
    const UChar32 c = uset_charAt(set.get(), i);
    if (c >= 0x80) letters += static_cast<char32_t>(c);
  }
  return letters;
}

/// Of a word, beyond ASCII, in small letters; none of scripts that have no alphabet here. İ is a capital i.
std::u32string letters_of(Word word) {
  std::u32string letters;
  for (const char32_t c : word) {
    if (is_letter(c) && has_alphabet(c) && small(c) >= 0x80) letters += small(c);
  }
  return letters;
}

// Romanian as it is in encodings of one byte a letter, which have no comma below.
constexpr Word romanian_with_cedillas = U"ăâîşţ";

}  // namespace

OddWords::OddWords() {
  alphabets_.emplace_back(romanian_with_cedillas);
  for (const char* language : languages) {
    std::u32string letters = alphabet_of(language);
    if (!letters.empty()) alphabets_.push_back(std::move(letters));
  }
}

bool OddWords::is_of_a_language(const std::u32string& letters) {
  const auto [known, is_new] = known_.emplace(letters, false);
  if (is_new) {
    known->second = std::ranges::any_of(alphabets_, [&](const std::u32string& alphabet) {
      return std::ranges::all_of(letters, [&](char32_t c) { return is_one_of(c, alphabet); });
    });
  }
  return known->second;
}

int OddWords::oddness_of(Word word) {
  int odd = oddness::none;
  std::u32string letters = letters_of(word);
  for (std::size_t at = 0; at < word.size(); ++at) {
    const char32_t c = word[at];
    if (is_lost(c)) return oddness::certain;
    if (is_letter(c)) {
      odd = std::max({odd, oddness_of_case(word, at), oddness_of_letter(word, at)});
    } else if (!is_space(c) && c >= 0x80) {
      odd = std::max(odd, oddness_of_sign(c, around(word, at)));
    }
  }
  std::ranges::sort(letters);
  const bool wrong = mixes_scripts(word) || is_heavy(word) || (!letters.empty() && !is_of_a_language(letters));
  return wrong ? oddness::certain : odd;
}

bool OddWords::are_of_one_language(const std::vector<std::u32string>& words) {
  std::set<char32_t> all;
  for (const std::u32string& word : words) {
    for (const char32_t letter : letters_of(word)) all.insert(letter);
  }
  return all.empty() || is_of_a_language({all.begin(), all.end()});
}

}  // namespace ordinatio::inline csv
