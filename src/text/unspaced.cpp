#include "text/unspaced.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>

#include "base/utf8.h"
#include "cleaning/cleaning.h"
#include "cleaning/invisibles.h"
#include "cleaning/letters.h"
#include "text/break_penalty.h"

namespace ordinatio::inline text {
namespace {

bool is_figure(char32_t c) { return u_isdigit(static_cast<UChar32>(c)); }
bool is_one_of(char32_t c, std::u32string_view some) { return some.find(c) != std::u32string_view::npos; }

constexpr char32_t middle_dot = 0x30FB;  // between the names of one person
bool is_kana_particle(char32_t c) { return is_one_of(c, U"はがをにでともへのや"); }
bool is_honorific(char32_t c) { return is_one_of(c, U"おご"); }
bool is_numeral(char32_t c) { return is_one_of(c, U"〇零一二三四五六七八九十百千万"); }
bool is_repetition(char32_t c) { return is_one_of(c, U"\u0E46\u0EC6\u17D7"); }  // stays with the word it repeats

enum class Kind { other, han, hiragana, katakana };

Kind kind_of(char32_t c) {
  if (c == 0x30FC || is_one_of(c, U"ヶヵ")) return Kind::katakana;
  switch (script_of(c)) {
    case USCRIPT_HAN:
      return Kind::han;
    case USCRIPT_HIRAGANA:
      return Kind::hiragana;
    case USCRIPT_KATAKANA:
      return Kind::katakana;
    default:
      return Kind::other;
  }
}

char32_t before_byte(std::string_view line, std::size_t at) { return at == 0 ? 0 : previous_character(line, at); }
char32_t at_byte(std::string_view line, std::size_t at) { return at >= line.size() ? 0 : next_character(line, at); }

template <class Belongs>
std::size_t run_around(std::string_view line, std::size_t at, Belongs belongs) {
  std::size_t count = 0;
  for (std::size_t left = at; left > 0 && belongs(previous_character(line, left));) ++count;
  for (std::size_t right = at; right < line.size() && belongs(next_character(line, right));) ++count;
  return count;
}

/// The dictionary's words on both sides of a place.
struct Neighbours {
  std::string_view line;
  std::size_t begin = 0, at = 0, end = 0;

  [[nodiscard]] std::size_t characters(std::size_t from, std::size_t to) const {
    return graphemes_of(line.substr(from, to - from)).size();
  }
  [[nodiscard]] std::size_t left() const { return characters(begin, at); }
  [[nodiscard]] std::size_t right() const { return characters(at, end); }
  /// A particle that ends a phrase: it stands behind a word in another script.
  [[nodiscard]] bool ends_in_particle() const {
    return left() == 1 && is_kana_particle(before_byte(line, at)) &&
           kind_of(before_byte(line, begin)) != Kind::hiragana && is_ideographic(before_byte(line, begin));
  }
};

bool parts_words(const Neighbours& words, Kind before, Kind after) {
  const auto may_be_name = [](char32_t c) { return kind_of(c) == Kind::han || kind_of(c) == Kind::katakana; };
  const bool whole_words = words.left() > 1 && words.right() > 1;
  if (after == Kind::hiragana) {
    const bool honoured = words.right() == 1 && is_honorific(at_byte(words.line, words.at)) &&
                          kind_of(at_byte(words.line, words.end)) == Kind::han;
    if (words.ends_in_particle()) return honoured || words.right() > 2;
    constexpr std::size_t sure = 4;  // shorter words of hiragana are found in the midst of names
    return words.left() >= sure && words.right() >= sure;
  }
  if (before == Kind::hiragana) {
    return words.right() > 1 && !(words.left() == 1 && is_honorific(before_byte(words.line, words.at)));
  }
  if (before == Kind::katakana && after == Kind::katakana) return false;
  if (before == Kind::other || after == Kind::other) return true;
  return whole_words && run_around(words.line, words.at, may_be_name) > longest_name;
}

/// 5月 is not parted, nor is 二十年; elsewhere a line ends behind a sign, at a figure, or between words.
bool may_part(const Neighbours& words, bool is_edge) {
  const char32_t before = before_byte(words.line, words.at), after = at_byte(words.line, words.at);
  if (before == middle_dot || is_figure(before)) return false;
  if (is_ideographic(before) && u_ispunct(static_cast<UChar32>(before))) return true;
  if (is_figure(after)) return true;
  if (is_numeral(before) && kind_of(after) == Kind::han) return false;
  return is_edge && parts_words(words, kind_of(before), kind_of(after));
}

int ideographic_penalty(const Neighbours& words) {
  const char32_t before = before_byte(words.line, words.at);
  if (is_ideographic(before) && u_ispunct(static_cast<UChar32>(before))) return break_penalty::phrase_end;
  const bool in_date = is_figure(at_byte(words.line, words.at)) && is_one_of(before, U"年月");
  return in_date ? break_penalty::date : break_penalty::dictionary;
}

std::size_t letters_between(std::string_view line, std::size_t from, std::size_t to) {
  std::size_t letters = 0;
  for (const std::string_view grapheme : graphemes_of(line.substr(from, to - from))) {
    letters += u_isalnum(static_cast<UChar32>(at_byte(grapheme, 0))) ? 1U : 0U;
  }
  return letters;
}

}  // namespace

bool is_ideographic(char32_t c) {
  if (c < 0x2E80) return false;
  const UScriptCode script = script_of(c);
  const bool sign = (c >= 0x3001 && c <= 0x303F) || c == middle_dot || c == 0x30FC || (c >= 0xFF01 && c <= 0xFF65);
  return sign || script == USCRIPT_HAN || script == USCRIPT_HIRAGANA || script == USCRIPT_KATAKANA ||
         script == USCRIPT_BOPOMOFO || script == USCRIPT_YI;
}

bool is_unspaced_alphabet(char32_t c) {
  if (c < 0xE00) return false;
  constexpr UScriptCode scripts[] = {USCRIPT_THAI,     USCRIPT_LAO,      USCRIPT_KHMER,       USCRIPT_MYANMAR,
                                     USCRIPT_TIBETAN,  USCRIPT_TAI_LE,   USCRIPT_NEW_TAI_LUE, USCRIPT_LANNA,
                                     USCRIPT_TAI_VIET, USCRIPT_JAVANESE, USCRIPT_BALINESE};
  return std::ranges::find(scripts, script_of(c)) != std::end(scripts);
}

bool is_unspaced(char32_t c) { return is_ideographic(c) || is_unspaced_alphabet(c); }

std::optional<int> unspaced_penalty(std::string_view line, const std::vector<std::size_t>& edges, std::size_t at) {
  const char32_t before = before_byte(line, at), after = at_byte(line, at);
  std::optional<int> penalty;
  if (!is_ideographic(before) && !is_ideographic(after)) {  // ICU's line rules have asked the dictionary
    const bool longer_than_a_name = run_around(line, at, [](char32_t c) { return !is_space(c); }) > longest_name;
    if (longer_than_a_name && !is_repetition(after)) penalty = break_penalty::dictionary;
    return penalty;
  }
  const auto edge = std::ranges::lower_bound(edges, at);
  const bool is_edge = edge != edges.end() && *edge == at;
  const std::size_t begin = edge == edges.begin() ? 0 : *(edge - 1);
  const std::size_t end = is_edge && edge + 1 != edges.end() ? *(edge + 1) : line.size();
  const Neighbours words{line, begin, at, end};
  if (may_part(words, is_edge)) penalty = ideographic_penalty(words);
  return penalty;
}

void drop_lone_characters(std::string_view line, std::vector<BreakPlace>& places) {
  const std::vector<BreakPlace> all = places;
  const auto has_blank = [&](std::size_t from, std::size_t to) { return line.substr(from, to - from).find(' '); };
  std::size_t index = 0;
  std::erase_if(places, [&](const BreakPlace& place) {
    const std::size_t own = index++;
    const bool concerned = is_unspaced(before_byte(line, place.end)) || is_unspaced(at_byte(line, place.begin));
    if (place.end != place.begin || !concerned) return false;
    std::size_t from = own == 0 ? 0 : all[own - 1].begin;
    std::size_t to = own + 1 == all.size() ? line.size() : all[own + 1].end;
    if (const std::size_t blank = line.substr(0, place.end).rfind(' '); blank != std::string_view::npos)
      from = std::max(from, blank);
    if (const std::size_t blank = has_blank(place.begin, to); blank != std::string_view::npos) to = place.begin + blank;
    return letters_between(line, from, place.end) < 2 || letters_between(line, place.begin, to) < 2;
  });
}

}  // namespace ordinatio::inline text
