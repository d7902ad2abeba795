#include <algorithm>
#include <numeric>

#include "base/base.h"

namespace ordinatio::inline base {
namespace {

/// Edits (insert, drop, replace a byte, swap two neighbours) from one word to the other (Damerau 1964; Levenshtein 1966; no
/// byte is edited twice).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), row(b.size() + 1), next(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    next[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      next[j + 1] = std::min({row[j] + (a[i] == b[j] ? 0 : 1), row[j + 1] + 1, next[j] + 1});
      const bool swapped = i > 0 && j > 0 && a[i] == b[j - 1] && a[i - 1] == b[j];
      if (swapped) next[j + 1] = std::min(next[j + 1], before[j - 1] + 1);
    }
    std::swap(before, row);
    std::swap(row, next);
  }
  return row.back();
}

/// Words that mean the same and are spelt otherwise: what is often said, and what the program says. Without hyphens.
struct Synonym {
  std::string_view said, known;
};
constexpr Synonym synonyms[] = {
    {"topleft", "upper-left"},
    {"topright", "upper-right"},
    {"bottomleft", "lower-left"},
    {"bottomright", "lower-right"},
    {"lefttop", "upper-left"},
    {"righttop", "upper-right"},
    {"leftbottom", "lower-left"},
    {"rightbottom", "lower-right"},
    {"leftupper", "upper-left"},
    {"rightupper", "upper-right"},
    {"leftlower", "lower-left"},
    {"rightlower", "lower-right"},
    {"tl", "upper-left"},
    {"tr", "upper-right"},
    {"bl", "lower-left"},
    {"br", "lower-right"},
    {"upper", "top"},
    {"lower", "bottom"},
    {"up", "top"},
    {"down", "bottom"},
    {"center", "centre"},
    {"centered", "centre"},
    {"middle", "centre"},
    {"color", "colour"},
    {"colors", "colours"},
    {"gray", "grey"},
    {"round", "rounded"},
    {"chamfered", "cut"},
    {"bevelled", "cut"},
    {"straight", "square"},
    {"behind", "back"},
    {"face", "font"},
    {"typeface", "font"},
    {"breaks", "line_breaks"},
    {"wrap", "line_breaks"},
    {"alignment", "align"},
    {"length", "height"},
    {"uppercase", "upper"},
    {"capitals", "upper"},
    {"lowercase", "lower"},
    {"toughened", "tempered"},
};

/// In small letters, without what parts words.
std::string plain(std::string_view word) {
  std::string letters;
  for (const char c : word) {
    if (c == '-' || c == '_' || c == ' ') continue;
    letters += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return letters;
}

std::optional<std::string> meant_by(std::string_view word, std::span<const std::string_view> known) {
  const std::string said = plain(word);
  for (const Synonym& synonym : synonyms) {
    if (synonym.said == said && std::ranges::find(known, synonym.known) != known.end())
      return std::string(synonym.known);
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string_view> known) {
  if (auto meant = meant_by(word, known)) return meant;
  std::optional<std::string> nearest;
  std::size_t least = word.size() / 2 + 1;  // half of the letters wrong is another word
  for (const std::string_view candidate : known) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < least) {
      least = distance;
      nearest = std::string(candidate);
    }
  }
  return nearest;
}

std::vector<std::string_view> lines_as_typed(std::string_view text) {
  std::vector<std::string_view> lines;
  for (;;) {
    const std::size_t end = text.find_first_of("\r\n");
    lines.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return lines;
    text.remove_prefix(end + (text.substr(end, 2) == "\r\n" ? 2 : 1));
  }
}

}  // namespace ordinatio::inline base
