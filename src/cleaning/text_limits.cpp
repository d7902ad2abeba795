#include "cleaning/text_limits.h"

#include <algorithm>

#include "base/utf8.h"

namespace ordinatio::inline cleaning {
namespace {

/// "20,000,000": nobody counts eight zeros.
std::string with_commas(std::size_t number) {
  std::string text = std::to_string(number);
  for (std::size_t at = text.size(); at > 3; at -= 3) text.insert(at - 3, ",");
  return text;
}

Fault beyond_limit(const std::string& has, const std::string& limit) {
  return {"the text is too long", "", "it has " + has + ", and the limit is " + limit,
          "Shorten it, or give it to several items"};
}

}  // namespace

MaybeFault too_long(std::string_view original) {
  const std::size_t characters = count_characters(original);
  if (characters <= text_limits::raw_characters) return std::nullopt;
  return beyond_limit(with_commas(characters) + " characters as it came", with_commas(text_limits::raw_characters));
}

MaybeFault too_long(std::span<const std::string> lines) {
  std::size_t characters = 0;
  for (const std::string& line : lines) characters += count_characters(line);
  if (characters > text_limits::characters) {
    return beyond_limit(with_commas(characters) + " characters", with_commas(text_limits::characters));
  }
  if (lines.size() > text_limits::lines) {
    return beyond_limit(with_commas(lines.size()) + " lines", with_commas(text_limits::lines));
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline cleaning
