#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <stdexcept>

#include "base/base.h"

namespace ordinatio::number_test {

namespace {

std::string number(double value, int decimals) {
  std::string out;
  append_number(out, value, decimals);
  return out;
}

std::string fixed(double value, int decimals) {
  std::string out;
  append_fixed(out, value, decimals);
  return out;
}

}  // namespace

TEST_CASE("a number is no longer than it needs to be") {
  struct Case {
    double value;
    int decimals;
    const char* expected;
  };
  const Case cases[] = {
      {0, 3, "0"},         {-0.0004, 3, "0"},   {1.5, 3, "1.5"},  {100, 3, "100"}, {-12.3456, 3, "-12.346"},
      {0.001, 3, "0.001"}, {1e6, 3, "1000000"}, {2.9996, 3, "3"}, {7.25, 0, "7"},  {-0.05, 1, "-0.1"}};
  for (const Case& c : cases) CHECK(number(c.value, c.decimals) == c.expected);
}

TEST_CASE("a fixed number has all its places and never a negative zero") {
  CHECK(fixed(0, 4) == "0.0000");
  CHECK(fixed(-0.00001, 4) == "0.0000");
  CHECK(fixed(12.3, 4) == "12.3000");
  CHECK(fixed(-101.60005, 4) == "-101.6001");
}

TEST_CASE("what is not finite is never written") {
  CHECK_THROWS_AS(number(std::nan(""), 3), std::domain_error);
  CHECK_THROWS_AS(fixed(INFINITY, 4), std::domain_error);
  CHECK_THROWS_AS(number(1e10, 3), std::domain_error);
}

TEST_CASE("numbers are read whole or not at all") {
  CHECK(parse_number("12.5") == 12.5);
  CHECK(parse_number("+3") == 3.0);
  for (const char* text : {"", "nan", "inf", "1,5", "12mm", " 1", "1e999", "--1"}) CHECK_FALSE(parse_number(text));
}

TEST_CASE("a comma locale changes no number") {
  const char* locale = nullptr;
  for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8"})
    locale = locale ? locale : std::setlocale(LC_ALL, name);
  // Where no comma locale is installed the check still holds the plain one.
  CHECK(number(1.5, 3) == "1.5");
  CHECK(parse_number("1.5") == 1.5);
  std::setlocale(LC_ALL, "C");
}

TEST_CASE("the units are the exact definitions") {
  CHECK(mm_per_inch == 25.4);
  CHECK(4 * mm_per_inch == 101.6);
  CHECK(152.4 / mm_per_point == Approx(432).margin(1e-12));
  CHECK(152.4 / mm_per_css_px == Approx(576).margin(1e-12));
}

}  // namespace ordinatio::number_test
