#include <unicode/uchar.h>

#include <algorithm>
#include <optional>

#include "base/utf8.h"
#include "cleaning/invisibles.h"
#include "text/break_penalty.h"
#include "text/line_rules.h"
#include "text/text.h"
#include "text/unspaced.h"
#include "text/word_gap.h"

namespace ordinatio::inline text {
namespace {

constexpr char32_t soft_break = 0x200B;

/// A line is never broken beside these.
bool is_unbreaking(char32_t c) { return is_glue(c) || c == 0x2007 || c == 0x2060 || c == 0xFEFF || c == 0x2011; }
bool is_gap(char32_t c) { return c == soft_break || (is_space(c) && !is_unbreaking(c)); }

bool is_letter_or_digit(char32_t c) { return u_isalnum(static_cast<UChar32>(c)) || is_mark(c); }

bool is_long_dash(char32_t c) { return c == 0x2014 || c == 0x2E3A; }

/// How a break reads between two characters that no space parts, of scripts with spaces; nothing where it would be inside
/// a word.
std::optional<int> penalty_between(char32_t two_before, char32_t before, char32_t after) {
  if (is_long_dash(before)) return break_penalty::phrase_end;  // it ends a line, never begins one
  if (is_long_dash(after)) return std::nullopt;
  const bool hyphen = std::u32string_view(U"-\u2010\u2013/\u058A\u05BE").find(before) != std::u32string_view::npos;
  if (hyphen && is_letter_or_digit(two_before) && is_letter_or_digit(after)) return break_penalty::hyphen;
  if (before == 0x1361) return break_penalty::word_gap;  // the Ethiopic wordspace
  return std::nullopt;
}

char32_t character_before(std::string_view line, std::size_t at) { return at == 0 ? 0 : previous_character(line, at); }
char32_t character_at(std::string_view line, std::size_t at) {
  return at == line.size() ? 0 : next_character(line, at);
}

/// The words between spaces of any kind, and where each begins.
struct LineWords {
  std::vector<LineWord> words;
  std::vector<std::size_t> begins;

  LineWords(std::string_view line, std::string_view language) {
    std::size_t begin = 0;
    for (std::size_t at = 0; at < line.size();) {
      const std::size_t start = at;
      const char32_t c = next_character(line, at);
      if (!is_gap(c) && !is_glue(c)) continue;
      add(line, begin, start, language);
      begin = at;
    }
    add(line, begin, line.size(), language);
  }
  void add(std::string_view line, std::size_t begin, std::size_t end, std::string_view language) {
    if (begin == end) return;
    words.emplace_back(line.substr(begin, end - begin), language);
    begins.push_back(begin);
  }
  /// Which word begins at the byte; none before the first, and a mark on a space begins none.
  [[nodiscard]] std::optional<std::size_t> index_of(std::size_t byte) const {
    const auto found = std::ranges::lower_bound(begins, byte);
    if (found == begins.end() || *found != byte || found == begins.begin()) return std::nullopt;
    return static_cast<std::size_t>(found - begins.begin());
  }
};

/// Where the line before a place ends: spaces, zero width ones too, are left off.
std::size_t end_before(std::string_view line, std::size_t begin) {
  std::size_t end = begin;
  for (std::size_t at = begin; at > 0; end = at) {
    if (!is_gap(previous_character(line, at))) break;
  }
  return end;
}

}  // namespace

struct LineBreaker::Rooms {
  LineRules rules;
  WordRules dictionaries;
  MonthNames months;

  /// Where the dictionaries' words begin and end, for a line that has any in Han or kana.
  std::vector<std::size_t> edges_of(std::string_view line) {
    const bool asks = !all_characters(line, [](char32_t c) { return !is_ideographic(c); });
    return asks ? dictionaries.edges(line) : std::vector<std::size_t>{};
  }

  std::optional<int> penalty_at(std::string_view line, std::size_t end, std::size_t begin, const LineWords& words,
                                const std::vector<std::size_t>& edges, std::string_view language) {
    const char32_t before = character_before(line, end), after = character_at(line, begin);
    if (is_unbreaking(before) || is_unbreaking(after)) return std::nullopt;
    const bool at_dash = is_long_dash(before) || is_long_dash(after);
    if (end == begin && !at_dash && (is_unspaced(before) || is_unspaced(after)))
      return unspaced_penalty(line, edges, end);
    if (end == begin) {
      std::size_t at = end;
      previous_character(line, at);
      return penalty_between(character_before(line, at), before, after);
    }
    if (line.substr(end, begin - end).find("\u200B") != std::string_view::npos) return break_penalty::phrase_end;
    const auto index = words.index_of(begin);
    return index ? penalty_before(words.words, *index, language, months) : std::nullopt;
  }
};

LineBreaker::LineBreaker() : rooms_(std::make_unique<Rooms>()) {}
LineBreaker::~LineBreaker() = default;
LineBreaker::LineBreaker(LineBreaker&&) noexcept = default;
LineBreaker& LineBreaker::operator=(LineBreaker&&) noexcept = default;

std::vector<BreakPlace> LineBreaker::places(std::string_view line, std::string_view language) {
  std::vector<BreakPlace> places;
  const std::vector<std::size_t> allowed = rooms_->rules.places(line, language);
  if (allowed.empty()) return places;
  const LineWords words(line, language);
  const std::vector<std::size_t> edges = rooms_->edges_of(line);
  for (const std::size_t begin : allowed) {
    const std::size_t end = end_before(line, begin);
    if (end == 0) continue;  // spaces only
    if (const auto penalty = rooms_->penalty_at(line, end, begin, words, edges, language))
      places.push_back({end, begin, *penalty});
  }
  drop_lone_characters(line, places);
  return places;
}

bool may_join(std::string_view line, std::string_view next) {
  if (line.empty() || next.empty()) return false;
  std::size_t at = line.size();
  char32_t before = previous_character(line, at);
  if ((before == '-' || before == 0x2010) && is_letter_or_digit(character_before(line, at))) return false;
  while (at > 0 && is_mark(before) && !is_unspaced_alphabet(before)) before = previous_character(line, at);
  return !is_unspaced(before) || !is_unspaced(character_at(next, 0));
}

int lone_penalty(std::string_view words, std::string_view language) {
  const LineWords parted(words, language);
  const bool is_one = parted.words.size() == 1;
  return is_one && (leans(parted.words.front()) || is_short(parted.words.front())) ? break_penalty::hanging : 0;
}

}  // namespace ordinatio::inline text
