#include <array>
#include <charconv>
#include <cmath>
#include <cstring>
#include <stdexcept>

#include "base/base.h"
#include "base/digits.h"

namespace ordinatio::inline base {
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

/// "00" to "99": two digits cost one division.
constexpr std::array<char, 200> pairs = [] {
  std::array<char, 200> table{};
  for (std::size_t i = 0; i < 100; ++i) {
    table[2 * i] = static_cast<char>('0' + i / 10);
    table[2 * i + 1] = static_cast<char>('0' + i % 10);
  }
  return table;
}();

char* put_pair(char* end, std::uint64_t below_hundred) {
  std::memcpy(end - 2, pairs.data() + 2 * below_hundred, 2);
  return end - 2;
}

char* put_digit(char* end, std::uint64_t below_ten) {
  *--end = static_cast<char>('0' + below_ten);
  return end;
}

/// Writes sign, whole part, and `decimals` places, from the last digit to the first; returns the first.
char* write_digits(char* end, std::int64_t units, int decimals) {
  const bool negative = units < 0;
  auto rest = static_cast<std::uint64_t>(negative ? -units : units);
  char* at = end;
  int places = decimals;
  for (; places > 1; places -= 2, rest /= 100) at = put_pair(at, rest % 100);
  if (places == 1) at = put_digit(at, rest % 10), rest /= 10;
  if (decimals > 0) *--at = '.';
  for (; rest >= 100; rest /= 100) at = put_pair(at, rest % 100);
  at = rest >= 10 ? put_pair(at, rest) : put_digit(at, rest);
  if (negative) *--at = '-';
  return at;
}

/// Written, with trailing zeros and "-0" left out.
std::string_view shortest(char (&buffer)[most_digits], double value, int decimals) {
  char* end = buffer + most_digits;
  char* begin = write_digits(end, scaled(value, decimals), decimals);
  if (decimals > 0) {
    while (end[-1] == '0') --end;
    if (end[-1] == '.') --end;
  }
  return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

char* put_number(char* out, double value, int decimals) {
  char buffer[most_digits];
  const std::string_view digits = shortest(buffer, value, decimals);
  std::memcpy(out, digits.data(), digits.size());
  return out + digits.size();
}

void append_number(std::string& out, double value, int decimals) {
  char buffer[most_digits];
  out += shortest(buffer, value, decimals);
}

std::string mm_text(double value, int decimals) {
  std::string text;
  append_number(text, value, decimals);
  return text + " mm";
}

void append_fixed(std::string& out, double value, int decimals) {
  char buffer[most_digits];
  char* end = buffer + most_digits;
  out.append(write_digits(end, scaled(value, decimals), decimals), end);
}

std::optional<double> parse_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace ordinatio::inline base
