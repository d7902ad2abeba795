#include <algorithm>
#include <utility>

#include "geometry/medial.h"

namespace ordinatio::inline geometry {
namespace {

constexpr int golden_steps = 16;           // 0.618¹⁶ < 5e-4 of a stretch
constexpr std::size_t climbs = 2;          // from this many of a contour's largest probes
constexpr double golden = 0.618033988749;  // (√5 − 1)/2

/// The largest ball that touches the side between two places, where the radius rises and falls once (golden section).
Ball climb(const Boundary& boundary, std::size_t side, double from, double to) {
  double left = to - golden * (to - from), right = from + golden * (to - from);
  Ball at_left = ball_at(boundary, side, left), at_right = ball_at(boundary, side, right);
  for (int i = 0; i < golden_steps; ++i) {
    if (at_left.radius < at_right.radius) {
      from = std::exchange(left, right);
      at_left = at_right;
      right = from + golden * (to - from);
      at_right = ball_at(boundary, side, right);
    } else {
      to = std::exchange(right, left);
      at_right = at_left;
      left = to - golden * (to - from);
      at_left = ball_at(boundary, side, left);
    }
  }
  return at_left.radius < at_right.radius ? at_right : at_left;
}

/// Between the probes before and after it, on the probe's own side.
Probe climb_from(const Boundary& boundary, const Probe& probe) {
  const double stretch = probe.to - probe.from, span = boundary.sides[probe.side].span;
  const Ball top = climb(boundary, probe.side, std::max(0.0, probe.from - stretch), std::min(span, probe.to + stretch));
  return {top.radius > probe.ball.radius ? top : probe.ball, probe.side, probe.from, probe.to};
}

double radius_of(const Probe& probe) { return probe.ball.radius; }

}  // namespace

std::vector<Probe> largest_discs(const Boundary& boundary, const std::vector<Probe>& probes) {
  std::vector<std::vector<Probe>> by_contour(boundary.areas.size());
  for (const Probe& probe : probes) {
    const std::size_t contour = boundary.sides[probe.side].contour;
    if (boundary.areas[contour] > 0 && probe.ball.stopped) by_contour[contour].push_back(probe);
  }
  std::vector<Probe> discs;
  for (std::vector<Probe>& own : by_contour) {
    std::ranges::stable_sort(own, std::greater{}, radius_of);
    own.resize(std::min(own.size(), climbs));
    for (Probe& probe : own) probe = climb_from(boundary, probe);
    if (!own.empty()) discs.push_back(*std::ranges::max_element(own, {}, radius_of));
  }
  return discs;
}

}  // namespace ordinatio::inline geometry
