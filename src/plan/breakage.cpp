#include "plan/breakage.h"

#include <cmath>
#include <limits>

namespace ordinatio::inline plan {
namespace {

/// Pieces that hold before one breaks.
double gap(double share, Lots& lots) { return std::floor(std::log(lots.share()) / std::log1p(-share)); }

}  // namespace

int broken_of(int pieces, double share, Lots& lots) {
  if (pieces <= 0 || share <= 0) return 0;
  if (share >= 1) return pieces;
  if (share > 0.5) return pieces - broken_of(pieces, 1 - share, lots);
  int broken = 0;
  for (double at = gap(share, lots); at < pieces; at += 1 + gap(share, lots)) ++broken;
  return broken;
}

int begun_until(int wanted, double whole, Lots& lots) {
  if (whole >= 1) return wanted;
  double broken = 0;
  if (whole > 0.5) {
    for (double held = gap(1 - whole, lots); held < wanted; held += gap(1 - whole, lots)) ++broken;
  } else {
    for (int held = 0; held < wanted; ++held) broken += gap(whole, lots);  // that break before one holds
  }
  constexpr double most = std::numeric_limits<int>::max();
  return static_cast<int>(std::min(wanted + broken, most));
}

}  // namespace ordinatio::inline plan
