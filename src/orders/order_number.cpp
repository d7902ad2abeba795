#include "orders/order_number.h"

#include <algorithm>

#include "csv/shown.h"
#include "orders/order_rows.h"

namespace ordinatio::inline orders {
namespace {

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::string_view without_guard(std::string_view number) {
  if (number.size() < 3 || !number.starts_with("=\"") || !number.ends_with('"')) return number;
  return trimmed(number.substr(2, number.size() - 3));
}

bool in_scientific_notation(std::string_view number) {
  const std::size_t e = std::min(number.find_first_of("eE"), number.size());
  std::string mantissa(number.substr(0, e));
  std::string_view exponent = number.substr(std::min(e + 1, number.size()));
  const auto strip_sign = [](auto& text) {
    const bool sign = text.starts_with('+') || text.starts_with('-');
    if (sign) text = text.substr(1);
    return sign;
  };
  strip_sign(mantissa);
  const bool sign = strip_sign(exponent);
  const std::size_t mark = mantissa.find_first_of(".,");
  if (mark != std::string::npos) mantissa.erase(mark, 1);
  return all_digits(mantissa) && all_digits(exponent) && (sign || mark != std::string::npos);
}

std::string_view without_empty_decimals(std::string_view number) {
  const std::size_t mark = number.find_first_of(".,");
  if (mark == 0 || mark == std::string_view::npos || mark + 1 == number.size() || number.size() - mark > 3) {
    return number;
  }
  return number.find_first_not_of('0', mark + 1) == std::string_view::npos ? number.substr(0, mark) : number;
}

}  // namespace ordinatio::inline orders
