// What stands in the middle, by a measure that knows no letters: tests/golden/visual_middle.h.
#include <catch2/catch.hpp>
#include <cmath>

#include "visual_middle.h"

using namespace golden;

TEST_CASE("the visual middle of two bars is between them, by the roots of their lengths") {
  ordinatio::Path bars;
  bars.add_rectangle({0, 0, 16, 2});
  CHECK(visual_middle(bars) == Approx(1).margin(0.01));
  bars.add_rectangle({0, 8, 4, 10});  // a quarter as long counts half
  CHECK(visual_middle(bars) == Approx((1 * 2 + 9 * 1) / 3.0).margin(0.01));
}

TEST_CASE("every awkward text stands in its optical middle, or as near as even gaps let it") {
  // Two thirds of a stroke's width, by and large: two measures of one eye may differ by that. Ours. By the middle of the ink's
  // box, or of the capitals alone, a line such as "Gyp" is further off.
  constexpr double seen_as_middle = 0.09;  // em
  constexpr double at_the_limit = 1.29;    // of the gaps; the fit is exact, the picture's ink is not
  const auto errors = middle_errors(awkward_texts(std::filesystem::path(TEST_FOLDER) / "golden/awkward.txt"));
  std::size_t counted = 0;
  for (const MiddleError& one : errors) {
    CAPTURE(one.name, one.script, one.error, one.em, one.above, one.below);
    const double uneven = std::max(one.above, one.below) / std::min(one.above, one.below);
    CHECK(uneven <= 1.31);
    CHECK((std::abs(one.error) <= seen_as_middle * one.em || uneven >= at_the_limit));
    ++counted;
  }
  CHECK(counted > 60);
}
