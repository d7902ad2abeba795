#include "base/phrase.h"

#include "base/utf8.h"

namespace ordinatio::inline base {

std::string counted(std::size_t count, std::string_view thing, std::string_view things) {
  const std::string number = std::to_string(count) + ' ';
  if (count == 1) return number + std::string(thing);
  return things.empty() ? number + std::string(thing) + 's' : number + std::string(things);
}

std::string in_quotes(std::string_view word) { return '"' + std::string(word) + '"'; }

std::string padded(std::string_view text, std::size_t width) {
  const std::size_t columns = count_characters(text);
  std::string wide(text);
  if (columns < width) wide.append(width - columns, ' ');
  return wide;
}

std::string zero_padded(std::string_view digits, std::size_t width) {
  std::string text(digits.size() < width ? width - digits.size() : 0, '0');
  return text.append(digits);
}

}  // namespace ordinatio::inline base
