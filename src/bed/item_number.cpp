#include "bed/item_number.h"

#include "base/check_character.h"
#include "base/phrase.h"

namespace ordinatio::inline bed {
namespace {

constexpr std::size_t ordinal_digits = 5;  // as many as the ordinals of the largest order have
constexpr std::string_view digits = "0123456789", blanks = " \t\r\n";

struct NumberParts {
  std::string_view order, ordinal;
};

std::optional<NumberParts> parts_of(std::string_view item) {
  const std::size_t last = item.find_last_not_of(digits);
  if (last == std::string_view::npos || last == 0 || last + 1 == item.size() || item[last] != '-') return std::nullopt;
  return NumberParts{item.substr(0, last), item.substr(last + 1)};
}

char check_of(const NumberParts& parts) {
  return check_character(std::string(parts.order) + zero_padded(parts.ordinal, ordinal_digits));
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(blanks);
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(blanks) + 1 - begin);
}

char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

bool is_check(char c) { return (c >= '0' && c <= '9') || (upper(c) >= 'A' && upper(c) <= 'Z'); }

}  // namespace

std::string with_check(const std::string& item) {
  const auto parts = parts_of(item);
  return parts ? item + '/' + check_of(*parts) : item;
}

std::string number_for_people(const Item& item) { return item.source.empty() ? item.id : with_check(item.id); }

bool has_check(std::string_view typed) {
  typed = trimmed(typed);
  if (typed.size() < 2 || typed[typed.size() - 2] != '/' || !is_check(typed.back())) return false;
  return parts_of(typed.substr(0, typed.size() - 2)).has_value();
}

Result<std::string> item_typed(std::string_view typed) {
  typed = trimmed(typed);
  if (!has_check(typed)) return std::string(typed);
  const std::string_view item = typed.substr(0, typed.size() - 2);
  const char check = upper(typed.back());
  if (check_of(*parts_of(item)) == check) return std::string(item);
  return Fault{"the check character of " + std::string(item) + " is not " + check, "",
               "a character of the number was misread or mistyped",
               "Look at the number on the sheet or in the list again"};
}

}  // namespace ordinatio::inline bed
