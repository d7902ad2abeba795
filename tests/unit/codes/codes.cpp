// A code's modules, and the outlines that they are welded into.
#include "codes/codes.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace ordinatio::codes_test {

namespace {

QrCode code_of(const std::string& text) {
  const auto code = qr_code(text);
  if (!code.ok()) FAIL(describe(code.fault()));
  return *code;
}

double dark_modules(const QrCode& code) {
  double count = 0;
  for (const bool dark : code.dark) count += dark ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("an item's number makes the smallest of codes, and a longer one a larger code") {
  CHECK(code_of("1042-2/K").side == 21);
  CHECK(code_of("1042-2/K").whole_side() == 29);
  CHECK(code_of("fair-of-saint-swithin-1042-2/K").side > 21);
}

TEST_CASE("numbers that differ in one letter's case have different codes") {
  CHECK(code_of("fair-1-1/K").dark != code_of("FAIR-1-1/K").dark);
}

TEST_CASE("outlines cover each dark module once and nothing else, with four modules of light on each side") {
  for (const std::string number : {"1042-2/K", "3204-1/P", "מכירה-7-1/Q"}) {
    const QrCode code = code_of(number);
    const double module = 0.37;
    const Polygons outlines = outlines_of(code, module);
    CHECK(area_of(outlines) == Approx(dark_modules(code) * module * module).epsilon(1e-12));
    const Bounds box = bounds_of(path_of(outlines));
    CHECK(box.left == Approx(quiet_modules * module));
    CHECK(box.bottom == Approx(quiet_modules * module));
    CHECK(box.right == Approx((quiet_modules + code.side) * module));
    CHECK(box.top == Approx((quiet_modules + code.side) * module));
    CHECK_FALSE(contours_overlap(path_of(outlines), 1e-3));
  }
}

TEST_CASE("modules that touch along a side share one outline: no edge runs between two of them") {
  const QrCode code = code_of("1042-2/K");
  std::size_t edges = 0, sides = 0;
  for (const Polygon& outline : outlines_of(code, 1)) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Point along = outline[(i + 1) % outline.size()] - outline[i];
      CHECK((along.x == 0) != (along.y == 0));
      edges += static_cast<std::size_t>(std::lround(std::abs(along.x) + std::abs(along.y)));
    }
  }
  for (int row = -1; row <= code.side; ++row) {
    for (int column = -1; column <= code.side; ++column) {
      sides += code.is_dark(row, column) != code.is_dark(row, column + 1) ? 1 : 0;
      sides += code.is_dark(row, column) != code.is_dark(row + 1, column) ? 1 : 0;
    }
  }
  CHECK(edges == sides);
}

TEST_CASE("the code stands upright: the three squares that readers look for are not at its lower right corner") {
  const QrCode code = code_of("1042-2/K");
  constexpr double finder = 7, finder_ink = 33;  // modules (ISO/IEC 18004)
  const Polygons outlines = outlines_of(code, 1);
  const auto ink_at = [&](double left, double bottom) {
    return area_of(intersection(outlines, {polygon_of_box({left, bottom, left + finder, bottom + finder})}, 1e-3));
  };
  const double low = quiet_modules, high = quiet_modules + code.side - finder;
  CHECK(ink_at(low, low) == Approx(finder_ink));
  CHECK(ink_at(low, high) == Approx(finder_ink));
  CHECK(ink_at(high, high) == Approx(finder_ink));
  CHECK(ink_at(high, low) != Approx(finder_ink));
}

TEST_CASE("what is light is the whole square less what is dark") {
  const QrCode code = code_of("1042-2/K");
  const double whole = code.whole_side() * code.whole_side();
  CHECK(area_of(outlines_of(code, 1, true)) == Approx(whole - dark_modules(code)));
}

TEST_CASE("no code is made of nothing, or of what is no number any more") {
  CHECK_FALSE(qr_code("").ok());
  CHECK(qr_code(std::string(code_text_limit, '7')).ok());
  CHECK_FALSE(qr_code(std::string(code_text_limit + 1, '7')).ok());
}

}  // namespace ordinatio::codes_test
