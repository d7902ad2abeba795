#include "csv/cells.h"

#include <algorithm>

#include "base/base.h"
#include "csv/shown.h"

namespace ordinatio::inline csv {
namespace {

std::string replaced(std::string_view text, std::span<const std::pair<std::string_view, char>> signs) {
  std::string out;
  while (!text.empty()) {
    const auto sign =
        std::find_if(signs.begin(), signs.end(), [text](const auto& s) { return text.starts_with(s.first); });
    out += sign == signs.end() ? text.front() : sign->second;
    text.remove_prefix(sign == signs.end() ? 1 : sign->first.size());
  }
  return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

bool is_two_numbers(std::string_view word) {
  const std::size_t comma = word.find(',');
  return comma != std::string_view::npos && comma + 4 == word.size() && comma > 0 &&
         std::all_of(word.begin() + static_cast<std::ptrdiff_t>(comma) + 1, word.end(), is_digit);
}

std::vector<std::string> words_in(std::string_view text) {
  constexpr std::pair<std::string_view, char> blanks[]{
      {"\u00A0", ' '}, {"\u3000", ' '}, {"\t", ' '}, {"\r", ' '}, {"\n", ' '}};
  const std::string plain = replaced(text, blanks);
  std::vector<std::string> words;
  for (std::size_t at = plain.find_first_not_of(' '); at != std::string::npos; at = plain.find_first_not_of(' ', at)) {
    const std::size_t end = std::min(plain.find(' ', at), plain.size());
    words.push_back(plain.substr(at, end - at));
    at = end;
  }
  return words;
}

std::vector<std::string_view> parts_in(std::string_view cell) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t end = std::min(cell.find(';'), cell.size());
    if (const std::string_view part = trimmed(cell.substr(0, end)); !part.empty()) parts.push_back(part);
    if (end == cell.size()) return parts;
    cell.remove_prefix(end + 1);
  }
}

std::string with_plain_signs(std::string_view text) {
  constexpr std::pair<std::string_view, char> signs[]{{"\u2010", '-'}, {"\u2011", '-'}, {"\u2012", '-'},
                                                      {"\u2013", '-'}, {"\u2212", '-'}, {"\u00D7", 'x'}};
  return replaced(text, signs);
}

std::string closed_up(std::string_view text, char sign) {
  std::string out;
  bool after_sign = false;
  for (const char c : text) {
    if (c == ' ' && after_sign) continue;
    if (c == sign) out.erase(out.find_last_not_of(' ') + 1);
    after_sign = c == sign;
    out += c;
  }
  return out;
}

std::optional<double> number_in(std::string_view word) {
  std::string number(word);
  if (const std::size_t comma = number.find(','); comma != std::string::npos) {
    if (number.find('.') != std::string::npos || is_two_numbers(number)) return std::nullopt;
    number[comma] = '.';  // a second comma is no number to parse_number
  }
  return parse_number(number);
}

}  // namespace ordinatio::inline csv
