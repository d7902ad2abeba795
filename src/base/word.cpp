#include <algorithm>
#include <numeric>

#include "base/base.h"

namespace ordinatio {
namespace {

/// Edits (insert, drop, replace a byte) from one word to the other (Levenshtein 1966).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string_view> known) {
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

}  // namespace ordinatio
