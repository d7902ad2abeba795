#include "base/share.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

namespace ordinatio::share_test {

TEST_CASE("where nothing was tried nothing is known of a share") {
  const ShareInterval all = wilson_interval(0, 0);
  CHECK(all.low == 0);
  CHECK(all.high == 1);
}

TEST_CASE("both ends of a share's interval solve the equation that it is made of") {
  // Wilson 1927: the shares p whose own spread puts the counted share just z away, |k/n − p| = z √(p (1 − p) / n).
  for (const double z : {1.0, 1.959964, 2.575829}) {
    for (const std::size_t n : {1U, 7U, 29U, 400U, 100'000U}) {
      for (const std::size_t k : {std::size_t{0}, n / 3, n / 2, n}) {
        const ShareInterval share = wilson_interval(k, n, z);
        INFO(k << " of " << n << ", z " << z);
        const double counted = static_cast<double>(k) / static_cast<double>(n);
        CHECK(share.low <= counted);
        CHECK(counted <= share.high);
        for (const double p : {share.low, share.high}) {
          CHECK(std::abs(counted - p) == Approx(z * std::sqrt(p * (1 - p) / static_cast<double>(n))).margin(1e-12));
        }
        CHECK((share.low < share.high));
      }
    }
  }
}

TEST_CASE("what is lost and what is left mirror one another") {
  const ShareInterval lost = wilson_interval(3, 41), left = wilson_interval(38, 41);
  CHECK(lost.low == Approx(1 - left.high).epsilon(1e-12));
  CHECK(lost.high == Approx(1 - left.low).epsilon(1e-12));
}

TEST_CASE("an end of the scale is met exactly") {
  CHECK(wilson_interval(0, 20).low == 0);
  CHECK(wilson_interval(20, 20).high == 1);
  CHECK(wilson_interval(0, 20).high < 1);
  CHECK(wilson_interval(20, 20).low > 0);
}

TEST_CASE("a share of what cannot be is a mistake") {
  CHECK_THROWS(wilson_interval(2, 1));
  CHECK_THROWS(wilson_interval(1, 2, -1));
  CHECK_THROWS(wilson_interval(1, 2, std::nan("")));
}

TEST_CASE("as many pieces are prepared as leave those that are wanted") {
  CHECK(to_prepare(40, 0.05) == 43);  // 42.1
  CHECK(to_prepare(40, 0) == 40);
  CHECK(to_prepare(36, 0.1) == 40);
  CHECK(to_prepare(1, 0.5) == 2);
  CHECK(to_prepare(1, 0.999) == 1000);
  CHECK(to_prepare(0, 0.5) == 0);
  for (int wanted = 1; wanted < 400; ++wanted) {
    for (int percent = 0; percent < 100; ++percent) {
      const auto pieces = to_prepare(wanted, percent / 100.0);
      INFO(wanted << " at " << percent << " %");
      REQUIRE(pieces);
      CHECK(*pieces * (100 - percent) >= wanted * 100);
      CHECK((*pieces - 1) * (100 - percent) < wanted * 100);
    }
  }
}

TEST_CASE("no number of pieces makes up for losing all of them") {
  for (const double share : {1.0, 1.5, -0.1, std::nan(""), std::numeric_limits<double>::infinity()}) {
    CHECK_FALSE(to_prepare(40, share));
  }
  CHECK_FALSE(to_prepare(2'000'000'000, 0.5));
}

}  // namespace ordinatio::share_test
