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
  return std::llround(value * static_cast<double>(powers[decimals]));
}

/// Writes sign, whole part, and `decimals` places; returns the end.
char* write_digits(char* at, std::int64_t units, int decimals) {
  if (units < 0) {
    *at++ = '-';
    units = -units;
  }
  at = std::to_chars(at, at + 20, units / powers[decimals]).ptr;
  if (decimals == 0) return at;
  *at++ = '.';
  std::int64_t rest = units % powers[decimals];
  for (int place = decimals - 1; place >= 0; --place) {
    at[place] = static_cast<char>('0' + rest % 10);
    rest /= 10;
  }
  return at + decimals;
}

}  // namespace

void append_number(std::string& out, double value, int decimals) {
  char buffer[40];
  char* end = write_digits(buffer, scaled(value, decimals), decimals);
  if (decimals > 0) {
    while (end[-1] == '0') --end;
    if (end[-1] == '.') --end;
  }
  out.append(buffer, end);
}

void append_fixed(std::string& out, double value, int decimals) {
  char buffer[40];
  out.append(buffer, write_digits(buffer, scaled(value, decimals), decimals));
}

std::optional<double> parse_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace ordinatio
