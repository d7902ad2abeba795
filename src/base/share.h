#pragma once

#include <cstddef>
#include <optional>

namespace ordinatio::inline base {

/// A share of all, from 0 to 1, as far as it is known.
struct ShareInterval {
  double low = 0, high = 1;
};
/// What the share may be where `hits` of `trials` were counted: the score interval without continuity correction (Wilson
/// 1927, JASA 22:209). z: normal deviate, 1.959964 for 95 of 100 such intervals to hold the true share. No trials: [0, 1].
/// hits ≤ trials, z finite and not negative: throws std::domain_error otherwise.
ShareInterval wilson_interval(std::size_t hits, std::size_t trials, double z = 1.959964);

/// How many pieces to prepare so that `wanted` are left when a share of them is lost: ⌈wanted / (1 − share)⌉. Nothing where
/// no number will do: a share of 1 or more, one that is not finite or negative, or a number that no int holds.
std::optional<int> to_prepare(int wanted, double share_lost);

}  // namespace ordinatio::inline base
