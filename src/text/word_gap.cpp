#include "text/word_gap.h"

#include <unicode/uchar.h>

#include <algorithm>

#include "base/utf8.h"
#include "cleaning/cleaning.h"
#include "text/break_penalty.h"
#include "text/text.h"
#include "text/unspaced.h"

namespace ordinatio::inline text {
namespace {

/// « alone opens a quotation and » alone ends it where spaces stand inside them: French does that.
bool opens(std::string_view word) { return word == "«" || word == "‹" || word == "“" || word == "(" || word == "¿"; }
bool closes(std::string_view word) {
  return word == "»" || word == "›" || word == "”" || word == ")" || word == "!" || word == "?" || word == ";" ||
         word == ":";
}

bool ends_phrase(const LineWord& word) {
  if (word.text.size() > word.bare.size() && word.text.find_last_of(",;:!?") == word.text.size() - 1) return true;
  // A point after fewer letters is an abbreviation's, or an initial's.
  constexpr std::size_t shortest = 5;
  return word.text.ends_with("…") || is_dash(word.text) ||
         (word.bare.ends_with('.') && word.bare.size() > shortest && !is_number(word.bare));
}

bool is_plain_word(const LineWord& word) { return word.kind == WordKind::other; }

/// A name that an initial may follow; titles, "and" and "for" are none, nor is what a comma ends.
bool is_named(const LineWord& word, std::string_view language) {
  return is_plain_word(word) && is_name(word.text) && !is_title(word.folded, language);
}

/// "I", "A" and "O" are words too, and so are most letters of most languages in capitals.
bool is_pointless_initial(const LineWord& word) {
  return is_single_capital(word.text) && is_plain_word(word) && word.text != "I" && word.text != "O";
}

bool is_any_initial(const LineWord& word) { return is_initials(word.bare) || is_pointless_initial(word); }

/// What no letterer parts; what only habit keeps together is dear (penalty_before).
bool is_forbidden(std::span<const LineWord> words, std::size_t index) {
  const LineWord &before = words[index - 1], &after = words[index];
  if (opens(before.text) || closes(after.text)) return true;
  if (is_any_initial(before) && is_any_initial(after)) return true;
  return (is_number(before.bare) && is_unit(after.bare)) || (is_number_sign(before.bare) && is_number(after.bare));
}

/// Whether a surname is parted from its particle, or a name from the initial or the Jr. behind it.
bool parts_name(std::span<const LineWord> words, std::size_t index, std::string_view language) {
  const LineWord &before = words[index - 1], &after = words[index];
  const std::string_view two_before = index > 1 ? words[index - 2].bare : std::string_view();
  if (is_any_initial(after) && is_named(before, language)) return true;
  if (is_generation(after.bare, language)) return true;
  return is_particle(before.bare, two_before) && (is_capitalised(after.bare) || is_particle(after.bare, before.bare));
}

/// After a number: does it count what follows? "25 years"; German nouns are capitalised. "50." orders, and so may "12" in
/// an address; a year does neither.
int after_number(const LineWord& number, const LineWord& after, std::string_view language) {
  constexpr std::size_t digits_of_year = 4;
  if (number.bare.size() >= digits_of_year || number.text.size() > number.bare.size()) return break_penalty::phrase_end;
  if (number.bare.ends_with('.')) return break_penalty::ordinal;
  const bool counts = !is_capitalised(after.bare) || language.starts_with("de");
  return counts ? break_penalty::amount : break_penalty::ordinal;
}

/// Two neighbours in a date or a span of years, with what stands around them.
struct DatePlace {
  const LineWord *two_before, *before, *after, *two_after;  // the outer ones may be missing
  std::string_view language;
  MonthNames* months;

  [[nodiscard]] bool is_month(const LineWord* word) const {
    return word != nullptr && months->contains(word->folded, language);
  }
  static bool is_day_or_year(const LineWord* word) {
    return word != nullptr && (is_day(word->bare) || is_year(word->bare));
  }
  static bool is_linking(const LineWord* word) {  // "3rd of May", "3 de mayo de 2024"
    return word->folded == "of" || word->folded == "de" || word->folded == "del";
  }

  [[nodiscard]] bool parts_date() const {
    if (is_day_or_year(before) && is_month(after)) return true;
    if (is_month(before) && is_day_or_year(after)) return true;
    if (is_linking(after) &&
        ((is_day_or_year(before) && is_month(two_after)) || (is_month(before) && is_day_or_year(two_after))))
      return true;
    if (is_linking(before) &&
        ((is_day_or_year(two_before) && is_month(after)) || (is_month(two_before) && is_day_or_year(after))))
      return true;
    return parts_month_and_year_after_day() || parts_span();
  }
  /// "May 3, 2024": the year stands behind the day.
  [[nodiscard]] bool parts_month_and_year_after_day() const {
    return is_month(two_before) && is_day(before->bare) && is_year(after->bare);
  }
  [[nodiscard]] bool parts_span() const {
    const auto counts = [](const LineWord* word) { return word != nullptr && is_number(word->bare); };
    return (counts(before) && is_dash(after->text) && counts(two_after)) ||
           (counts(two_before) && is_dash(before->text) && counts(after));
  }
};

bool has_digit(const LineWord* word) {
  return word != nullptr && word->text.find_first_of("0123456789") != std::string_view::npos;
}

int date_penalty(std::span<const LineWord> words, std::size_t index, std::string_view language, MonthNames& months) {
  const LineWord* two_before = index > 1 ? &words[index - 2] : nullptr;
  const LineWord* two_after = index + 1 < words.size() ? &words[index + 1] : nullptr;
  const DatePlace place{two_before, &words[index - 1], &words[index], two_after, language, &months};
  const bool may = has_digit(two_before) || has_digit(place.before) || has_digit(place.after) || has_digit(two_after);
  if (!may) return 0;  // the months are looked up for a line with a digit only
  return place.parts_date() ? break_penalty::date : 0;
}

/// After an initial: a middle one has a name before it.
int after_initial(std::span<const LineWord> words, std::size_t index, std::string_view language) {
  std::size_t first = index - 1;
  while (first > 0 && is_any_initial(words[first - 1])) --first;
  return first > 0 && is_named(words[first - 1], language) ? break_penalty::middle_initial : break_penalty::name;
}

}  // namespace

LineWord::LineWord(std::string_view text_, std::string_view language)
    : text(text_),
      bare(bare_word(text_)),
      folded(folded_word(bare)),
      kind(kind_of(folded, language, is_capitalised(bare))) {}

bool leans(const LineWord& word) {
  const bool ends_here = word.text.size() > word.bare.size() || word.bare.ends_with('.');  // "…, and," stands by itself
  return !ends_here && (word.kind == WordKind::small_word || word.kind == WordKind::conjunction);
}

bool is_short(const LineWord& word) {
  if (is_number(word.bare) || is_capitalised(word.bare)) return false;
  const std::size_t letters = graphemes_of(word.bare).size();
  std::size_t at = 0;
  const char32_t first = letters == 0 ? 0 : next_character(word.bare, at);
  if (is_ideographic(first)) return letters == 1;
  return u_islower(static_cast<UChar32>(first)) && letters <= 2;
}

std::optional<int> penalty_before(std::span<const LineWord> words, std::size_t index, std::string_view language,
                                  MonthNames& months) {
  const LineWord &before = words[index - 1], &after = words[index];
  if (is_forbidden(words, index)) return std::nullopt;
  const bool phrase = ends_phrase(before) || after.kind == WordKind::conjunction || after.kind == WordKind::small_word;
  int penalty = phrase ? break_penalty::phrase_end : break_penalty::word_gap;
  const auto add = [&penalty](bool applies, int more) { penalty = applies ? std::max(penalty, more) : penalty; };
  const bool ends = ends_phrase(before);  // "…, and," stands by itself
  add(is_sign(after.text) && !opens(after.text) && after.kind != WordKind::conjunction, break_penalty::before_sign);
  add(before.kind == WordKind::clinging && !ends, break_penalty::clinging);
  if (is_number(before.bare) && !is_sign(after.text))
    penalty = std::max(penalty, after_number(before, after, language));
  if (leans(before) && !ends) {
    const bool joins = before.kind == WordKind::conjunction;
    penalty = std::max(penalty, joins ? break_penalty::conjunction : break_penalty::small_word);
  }
  const bool named = is_capitalised(after.bare) || after.kind == WordKind::conjunction;
  add(is_title(before.folded, language) && named && !ends, break_penalty::name);
  add(parts_name(words, index, language), break_penalty::name);
  if (is_any_initial(before) && is_capitalised(after.bare) && !ends)
    penalty = std::max(penalty, after_initial(words, index, language));
  penalty = std::max(penalty, date_penalty(words, index, language, months));
  return penalty;
}

}  // namespace ordinatio::inline text
