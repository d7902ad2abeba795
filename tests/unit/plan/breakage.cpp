#include "plan/breakage.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace ordinatio::breakage_test {

namespace {

struct Moments {
  double mean = 0, variance = 0;
};

template <class Draw>
Moments moments_of(int runs, Draw draw) {
  double sum = 0, squares = 0;
  for (int run = 0; run < runs; ++run) {
    const double value = draw();
    sum += value, squares += value * value;
  }
  const double mean = sum / runs;
  return {mean, squares / runs - mean * mean};
}

constexpr int runs = 20'000;
constexpr double deviations = 4;  // standard errors of the mean: one seed in 16,000 is farther off

}  // namespace

TEST_CASE("what breaks by lot has the binomial's mean and variance") {
  for (const double share : {0.002, 0.05, 0.5, 0.93}) {
    Lots lots(3);
    const Moments found = moments_of(runs, [&] { return broken_of(60, share, lots); });
    const double variance = 60 * share * (1 - share);
    INFO(share);
    CHECK(std::abs(found.mean - 60 * share) <= deviations * std::sqrt(variance / runs));
    CHECK(found.variance == Approx(variance).epsilon(0.06));
  }
}

TEST_CASE("what is begun until enough is whole has the negative binomial's mean and variance") {
  for (const double whole : {0.95, 0.6, 0.2}) {
    Lots lots(4);
    const Moments found = moments_of(runs, [&] { return begun_until(40, whole, lots); });
    const double variance = 40 * (1 - whole) / (whole * whole);
    INFO(whole);
    CHECK(std::abs(found.mean - 40 / whole) <= deviations * std::sqrt(variance / runs));
    CHECK(found.variance == Approx(variance).epsilon(0.06));
  }
}

TEST_CASE("nothing breaks where nothing can, all where all must") {
  Lots lots(1);
  CHECK(broken_of(60, 0, lots) == 0);
  CHECK(broken_of(60, 1, lots) == 60);
  CHECK(broken_of(0, 0.5, lots) == 0);
  CHECK(begun_until(40, 1, lots) == 40);
  CHECK(begun_until(0, 0.5, lots) == 0);
}

}  // namespace ordinatio::breakage_test
