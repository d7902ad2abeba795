#include "base/check_character.h"

#include <optional>

namespace ordinatio::inline base {
namespace {

constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
constexpr int size = 36;  // M of the standard; the other modulus is M + 1

std::optional<int> value_of(char c) {
  if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  const std::size_t at = alphabet.find(c);
  if (at == std::string_view::npos) return std::nullopt;
  return static_cast<int>(at);
}

}  // namespace

char check_character(std::string_view text) {
  int product = size;
  for (const char c : text) {
    const std::optional<int> value = value_of(c);
    if (!value) continue;
    const int sum = (product + *value) % size;
    product = (sum == 0 ? size : sum) * 2 % (size + 1);
  }
  return alphabet[static_cast<std::size_t>((size + 1 - product) % size)];
}

}  // namespace ordinatio::inline base
