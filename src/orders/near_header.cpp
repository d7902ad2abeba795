#include "orders/near_header.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <vector>

#include "orders/order_options.h"

namespace ordinatio::inline orders {
namespace {

using HeaderLetters = std::u32string;

/// The words of a header in small letters, without signs.
std::vector<HeaderLetters> words_of(std::string_view header) {
  std::vector<HeaderLetters> words(1);
  for (const char32_t c : label_key(header)) {
    if (u_isalnum(static_cast<UChar32>(c))) {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

HeaderLetters joined(const std::vector<HeaderLetters>& words) {
  HeaderLetters all;
  for (const HeaderLetters& word : words) all += word;
  return all;
}

/// Letters put in, left out, changed, or two of them swapped (optimal string alignment).
std::size_t slips_between(const HeaderLetters& a, const HeaderLetters& b) {
  std::vector<std::vector<std::size_t>> rows(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        rows[i][j] = i + j;
        continue;
      }
      const std::size_t changed = rows[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      rows[i][j] = std::min({changed, rows[i - 1][j] + 1, rows[i][j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        rows[i][j] = std::min(rows[i][j], rows[i - 2][j - 2] + 1);
      }
    }
  }
  return rows.back().back();
}

/// `qty` of `quantity`, `quant`: letters left out, the first one there and the last, or the word's beginning.
bool is_short_form(const HeaderLetters& shorter, const HeaderLetters& word) {
  if (shorter.size() < 2 || shorter.size() + 2 > word.size() || shorter.front() != word.front()) return false;
  if (shorter.size() >= 3 && word.starts_with(shorter)) return true;
  std::size_t at = 0;
  for (const char32_t c : word) at += at < shorter.size() && c == shorter[at] ? 1 : 0;
  return at == shorter.size() && shorter.back() == word.back();
}

bool is_plural(const HeaderLetters& plural, const HeaderLetters& word) {
  if (plural == word + U's') return true;
  return word.ends_with(U'y') && plural == word.substr(0, word.size() - 1) + U"ies";
}

}  // namespace

Nearness nearness(std::string_view name, std::string_view header, std::size_t slips) {
  constexpr std::size_t longest = 100;  // letters; a header of more is no misspelling
  const std::vector<HeaderLetters> wanted = words_of(name), there = words_of(header);
  const HeaderLetters a = joined(wanted), b = joined(there);
  if (a.empty() || b.empty() || a.size() > longest || b.size() > longest) return Nearness::none;
  const bool words = wanted.size() == 1 && there.size() == 1;
  const bool short_form = words && (is_short_form(b, a) || is_short_form(a, b));
  if (a == b || is_plural(a, b) || is_plural(b, a) || short_form) return Nearness::alike;
  constexpr std::size_t letters_a_slip = 4;  // in a shorter word another letter makes another word: Note, Name
  const std::size_t allowed = std::min(slips, a.size() / letters_a_slip);
  if (slips_between(a, b) <= allowed) return Nearness::alike;
  const auto has = [&](const HeaderLetters& word) { return std::ranges::find(there, word) != there.end(); };
  return there.size() > wanted.size() && std::ranges::all_of(wanted, has) ? Nearness::within : Nearness::none;
}

}  // namespace ordinatio::inline orders
