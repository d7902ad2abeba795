#include <algorithm>
#include <array>

#include "paper/paper.h"

namespace ordinatio::inline paper {

Tint tint_of(const std::string& material) {
  std::string small = material;
  for (char& letter : small) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  static constexpr std::array<std::pair<std::string_view, Tint>, 8> words{{{"slate", Tint::slate},
                                                                           {"stone", Tint::slate},
                                                                           {"glass", Tint::glass},
                                                                           {"wood", Tint::wood},
                                                                           {"oak", Tint::wood},
                                                                           {"brass", Tint::brass},
                                                                           {"copper", Tint::brass},
                                                                           {"bronze", Tint::brass}}};
  const auto known =
      std::ranges::find_if(words, [&](const auto& word) { return small.find(word.first) != std::string::npos; });
  return known == words.end() ? Tint::other : known->second;
}

std::string_view name_of(Tint tint) {
  static constexpr std::array<std::string_view, 5> names{"slate", "glass", "wood", "brass", "other"};
  return names[static_cast<std::size_t>(tint)];
}

}  // namespace ordinatio::inline paper
