// Of this folder alone.
#pragma once

#include <cstdint>
#include <string_view>

namespace ordinatio::inline check {

/// Digits that a double still holds exactly; a longer number is refused, no writer of ours has use for it.
inline constexpr int decimal_digits = 15;

/// Takes a plain decimal ("-12.345") off the front of [at, end). An exponent, "nan", "inf" and a plus sign are no
/// plain decimals: false, or the reader stops in front of them. Correctly rounded: digits and power are exact.
inline bool take_decimal(const char*& at, const char* end, double& value) {
  constexpr double powers[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
  const char* p = at;
  const bool negative = p != end && *p == '-';
  if (negative) ++p;
  std::uint64_t digits = 0;
  int count = 0, decimals = 0;
  const auto is_digit = [&] { return p != end && static_cast<unsigned char>(*p - '0') < 10; };
  for (; is_digit(); ++p, ++count) digits = digits * 10 + static_cast<std::uint64_t>(*p - '0');
  if (p != end && *p == '.') {
    for (++p; is_digit(); ++p, ++decimals) digits = digits * 10 + static_cast<std::uint64_t>(*p - '0');
    if (decimals == 0) return false;
  }
  if (count + decimals == 0 || count + decimals > decimal_digits) return false;
  const double magnitude = static_cast<double>(digits) / powers[decimals];
  value = negative ? -magnitude : magnitude;
  at = p;
  return true;
}

/// The plain decimal that is the whole of text; false when it is anything else.
inline bool read_decimal(std::string_view text, double& value) {
  const char *at = text.data(), *end = at + text.size();
  return take_decimal(at, end, value) && at == end;
}

}  // namespace ordinatio::inline check
