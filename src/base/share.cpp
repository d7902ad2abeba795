#include "base/share.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace ordinatio::inline base {

ShareInterval wilson_interval(std::size_t hits, std::size_t trials, double z) {
  if (hits > trials || !std::isfinite(z) || z < 0) throw std::domain_error("no share: more hits than trials, or no z");
  if (trials == 0) return {};
  const auto n = static_cast<double>(trials), k = static_cast<double>(hits);
  const double middle = k + z * z / 2, reach = z * std::sqrt(k * (n - k) / n + z * z / 4), all = n + z * z;
  // At 0 and at n the bound is met exactly, which rounding would miss.
  return {hits == 0 ? 0 : std::max((middle - reach) / all, 0.0),
          hits == trials ? 1 : std::min((middle + reach) / all, 1.0)};
}

std::optional<int> to_prepare(int wanted, double share_lost) {
  if (!(share_lost >= 0) || share_lost >= 1) return std::nullopt;
  if (wanted <= 0) return 0;
  const double exact = wanted / (1 - share_lost);
  // 36 at 10 % is 40, though 1 − 0.1 rounds: what is over a whole number by rounding alone is that number.
  constexpr double rounding = 4 * std::numeric_limits<double>::epsilon();
  const double pieces = std::ceil(exact * (1 - rounding));
  if (pieces > std::numeric_limits<int>::max()) return std::nullopt;
  return static_cast<int>(pieces);
}

}  // namespace ordinatio::inline base
