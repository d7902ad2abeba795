// Shares and their intervals against what was published of them; no library: the figures' source stands beside them.
#include <catch2/catch.hpp>
#include <cmath>

#include "base/share.h"

using namespace ordinatio;

TEST_CASE("score intervals are those of Newcombe's examples") {
  // Newcombe 1998, Statistics in Medicine 17:857-872, table I, method 3 (score, no continuity correction), 95 %, to four
  // places; the figures as tests of several open projects quote them from there.
  struct Case {
    std::size_t hits, trials;
    double low, high;
  };
  const Case cases[] = {{81, 263, 0.2553, 0.3662},
                        {15, 148, 0.0624, 0.1605},
                        {0, 20, 0, 0.1611},
                        {1, 29, 0.0061, 0.1718},
                        {29, 29, 0.8830, 1}};
  for (const Case& c : cases) {
    const ShareInterval share = wilson_interval(c.hits, c.trials);
    INFO(c.hits << " of " << c.trials);
    CHECK(std::abs(share.low - c.low) <= 0.5e-4);
    CHECK(std::abs(share.high - c.high) <= 0.5e-4);
  }
}
