#pragma once

#include <cstddef>
#include <cstdint>

namespace ordinatio::inline base {

/// Numbers that look drawn by lot and are the same for the same seed, everywhere (SplitMix64: Steele, Lea and Flood 2014,
/// OOPSLA).
class Lots {
 public:
  explicit Lots(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  /// From 0 to count − 1; count is not 0.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }
  /// Above 0, at most 1.
  double share() { return (static_cast<double>(next() >> 11) + 1) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace ordinatio::inline base
