#include <charconv>
#include <cmath>
#include <stdexcept>

#include "base/base.h"

namespace ordinatio {
namespace {

constexpr std::int64_t powers[] = {1,       10,        100,        1'000,       10'000,
                                   100'000, 1'000'000, 10'000'000, 100'000'000, 1'000'000'000};
constexpr double number_limit = 9e9;  // value · 10⁹ still fits 64 bits

/// value · 10^decimals, rounded half away from zero.
std::int64_t scaled(double value, int decimals) {
  if (!std::isfinite(value) || std::abs(value) >= number_limit) {
    throw std::domain_error("a number that is not finite, or far too large, was about to be written");
  }
  const double units = value * static_cast<double>(powers[decimals]);
  return static_cast<std::int64_t>(units + (units < 0 ? -0.5 : 0.5));  // a call of llround costs more than all the rest
}

/// Writes sign, whole part, and `decimals` places, from the last digit to the first; returns the first.
char* write_digits(char* end, std::int64_t units, int decimals) {
  const bool negative = units < 0;
  auto rest = static_cast<std::uint64_t>(negative ? -units : units);
  char* at = end;
  for (int place = 0; place < decimals; ++place, rest /= 10) *--at = static_cast<char>('0' + rest % 10);
  if (decimals > 0) *--at = '.';
  do {
    *--at = static_cast<char>('0' + rest % 10);
    rest /= 10;
  } while (rest > 0);
  if (negative) *--at = '-';
  return at;
}

constexpr std::size_t longest = 24;  // sign, ten digits, point, nine places

}  // namespace

void append_number(std::string& out, double value, int decimals) {
  char buffer[longest];
  char* end = buffer + longest;
  char* begin = write_digits(end, scaled(value, decimals), decimals);
  if (decimals > 0) {
    while (end[-1] == '0') --end;
    if (end[-1] == '.') --end;
  }
  out.append(begin, end);
}

std::string mm_text(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text + " mm";
}

void append_fixed(std::string& out, double value, int decimals) {
  char buffer[longest];
  char* end = buffer + longest;
  out.append(write_digits(end, scaled(value, decimals), decimals), end);
}

std::optional<double> parse_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace ordinatio
