#include <algorithm>

#include "geometry/medial.h"

namespace ordinatio::inline geometry {
namespace {

// Discs whose radii differ by less follow one another along a taper; a larger leap is from a stroke to what it joins.
constexpr double leap = 0.6;
constexpr double alike = 1e-3;  // discs of this relative difference are the same to the eye: the nearest is shown
constexpr int halvings = 10;    // of the stretch between two probes: to a thousandth of it

/// In descending order of radius, so that those which are at least as large as another come before it.
std::vector<Probe> largest_first(std::vector<Probe> probes) {
  std::ranges::stable_sort(probes, std::greater{}, [](const Probe& probe) { return probe.ball.radius; });
  return probes;
}

double depth_under(const Ball& ball, Point end) { return length(end - ball.centre) - ball.radius; }

/// The smallest spot that leaves more than a tip at `end` uncovered: the index of the largest ball that does not.
std::optional<std::size_t> taper_at(Point end, const std::vector<Probe>& probes, const GaugeRules& rules) {
  std::optional<std::size_t> found;
  double depth = 1e300, covering = 0;  // of the end under the opening by this ball or any larger; the one nearest to it
  for (std::size_t i = 0; i + 1 < probes.size(); ++i) {
    const Ball& ball = probes[i].ball;
    const Point away = end - ball.centre;
    const double reach = depth + ball.radius;
    if (dot(away, away) < reach * reach) {
      depth = depth_under(ball, end);
      covering = ball.radius;
    }
    if (depth <= rules.tip_depth) break;  // smaller balls leave less
    const double next = probes[i + 1].ball.radius;
    if (depth > rules.tip(next > leap * covering ? covering : next)) found = i + 1;
  }
  return found;
}

/// Of the balls as large as the indexed one, the nearest to the end.
const Probe& nearest_alike(Point end, const std::vector<Probe>& probes, std::size_t index) {
  const double least = (1 - alike) * probes[index].ball.radius;
  std::size_t nearest = index;
  for (std::size_t i = index; i < probes.size() && probes[i].ball.radius > least; ++i) {
    if (depth_under(probes[i].ball, end) < depth_under(probes[nearest].ball, end)) nearest = i;
  }
  return probes[nearest];
}

/// Along the probe's own side, the ball that just leaves no more than a tip at the end, if it lies before the next
/// probe; else the probe's.
Ball limit_ball(const Boundary& boundary, const Probe& probe, Point end, const GaugeRules& rules) {
  const double middle = (probe.from + probe.to) / 2, stretch = probe.to - probe.from;
  const auto leaves_tip = [&](const Ball& ball) { return depth_under(ball, end) <= rules.tip(ball.radius); };
  for (const double other : {middle - 1.5 * stretch, middle + 1.5 * stretch}) {
    if (other < 0 || other > boundary.sides[probe.side].span) continue;
    const Ball far = ball_at(boundary, probe.side, other, probe.ball.foot_side);
    if (far.radius <= probe.ball.radius || leap * leap * far.radius > probe.ball.radius || leaves_tip(far)) continue;
    double tip = middle, beyond = other;
    Ball limit = probe.ball;
    for (int i = 0; i < halvings; ++i) {
      const Ball between = ball_at(boundary, probe.side, (tip + beyond) / 2, limit.foot_side);
      if (leaves_tip(between)) {
        tip = (tip + beyond) / 2;
        limit = between;
      } else {
        beyond = (tip + beyond) / 2;
      }
    }
    return limit;
  }
  return probe.ball;
}

}  // namespace

void append_tapers(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& all_probes,
                   const GaugeRules& rules, const Bounds* zone) {
  const std::vector<Probe> probes = largest_first(all_probes);
  // A taper centred in the zone may end outside it.
  const double past = 2 * rules.tip_depth;
  Bounds ends;
  if (zone != nullptr) ends = {zone->left - past, zone->bottom - past, zone->right + past, zone->top + past};
  for (const Side& side : boundary.sides) {
    // A taper ends where the outline turns away from the region.
    if (cross(boundary.sides[side.previous].along, side.along) <= 0) continue;
    if (zone != nullptr && !holds(&ends, side.from)) continue;
    const auto index = taper_at(side.from, probes, rules);
    if (!index) continue;
    const Ball ball = limit_ball(boundary, nearest_alike(side.from, probes, *index), side.from, rules);
    if (holds(zone, ball.centre)) gauges.push_back({ball.centre, 2 * ball.radius});
  }
}

}  // namespace ordinatio::inline geometry
