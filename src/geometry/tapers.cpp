#include <algorithm>

#include "geometry/medial.h"

namespace ordinatio {
namespace {

// Discs whose radii differ by less follow one another along a taper; a larger leap is from a stroke to what it joins.
constexpr double leap = 0.7;
constexpr double alike = 1e-3;  // discs of this relative difference are the same to the eye: the nearest is shown

/// Balls in descending order of radius, so that those which are at least as large as another come before it.
std::vector<Ball> largest_first(const std::vector<Probe>& probes) {
  std::vector<Ball> balls;
  balls.reserve(probes.size());
  for (const Probe& probe : probes) balls.push_back(probe.ball);
  std::ranges::stable_sort(balls, std::greater{}, &Ball::radius);
  return balls;
}

double depth_under(const Ball& ball, Point end) { return length(end - ball.centre) - ball.radius; }

/// The smallest spot that leaves more than a tip at `end` uncovered: the index of the largest ball that does not.
std::optional<std::size_t> taper_at(Point end, const std::vector<Ball>& balls, const GaugeRules& rules) {
  std::optional<std::size_t> found;
  double depth = 1e300;  // of the end under the opening by balls[i]
  for (std::size_t i = 0; i + 1 < balls.size(); ++i) {
    const Point away = end - balls[i].centre;
    const double reach = depth + balls[i].radius;
    if (dot(away, away) < reach * reach) depth = depth_under(balls[i], end);
    if (depth <= rules.tip_depth) break;  // smaller balls leave less
    const double next = balls[i + 1].radius;
    if (depth > rules.tip(next > leap * balls[i].radius ? balls[i].radius : next)) found = i + 1;
  }
  return found;
}

/// Of the balls as large as balls[index], the nearest to the end.
const Ball& nearest_alike(Point end, const std::vector<Ball>& balls, std::size_t index) {
  std::size_t nearest = index;
  for (std::size_t i = index; i < balls.size() && balls[i].radius > (1 - alike) * balls[index].radius; ++i) {
    if (depth_under(balls[i], end) < depth_under(balls[nearest], end)) nearest = i;
  }
  return balls[nearest];
}

}  // namespace

void append_tapers(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& probes,
                   const GaugeRules& rules, const Bounds* zone) {
  const std::vector<Ball> balls = largest_first(probes);
  // A taper centred in the zone may end outside it.
  const double past = 2 * rules.tip_depth;
  Bounds ends;
  if (zone != nullptr) ends = {zone->left - past, zone->bottom - past, zone->right + past, zone->top + past};
  for (const Side& side : boundary.sides) {
    // A taper ends where the outline turns away from the region.
    if (cross(boundary.sides[side.previous].along, side.along) <= 0) continue;
    if (zone != nullptr && !holds(&ends, side.from)) continue;
    const auto index = taper_at(side.from, balls, rules);
    if (!index) continue;
    const Ball& ball = nearest_alike(side.from, balls, *index);
    if (holds(zone, ball.centre)) gauges.push_back({ball.centre, 2 * balls[*index].radius});
  }
}

}  // namespace ordinatio
