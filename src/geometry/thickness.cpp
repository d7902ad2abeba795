#include "geometry/thickness.h"

#include <algorithm>
#include <tuple>

#include "geometry/medial.h"

namespace ordinatio {
namespace {

constexpr double shortest = 1.0 / 16;  // of chord_error: shorter edges are rounding

void sort_by_width(std::vector<Gauge>& gauges) {
  std::ranges::sort(gauges, [](const Gauge& a, const Gauge& b) {
    return std::tie(a.width, a.at.x, a.at.y) < std::tie(b.width, b.at.x, b.at.y);
  });
}

}  // namespace

std::optional<Bounds> around(const Bounds* zone, const GaugeRules& rules) {
  if (zone == nullptr) return std::nullopt;
  const double reach = 6 * rules.tip_depth;
  return Bounds{zone->left - reach, zone->bottom - reach, zone->right + reach, zone->top + reach};
}

Thickness thickness_of(const Polygons& ink, const GaugeRules& ink_rules, const Bounds* zone) {
  GaugeRules rules = ink_rules;
  const std::optional<Bounds> near = around(zone, rules);
  const Bounds* const near_zone = near ? &*near : nullptr;
  Thickness thickness;
  for (const bool outside : {false, true}) {
    if (outside) rules.corner_depth = rules.slot_depth;
    const Boundary boundary = boundary_of(ink, rules.chord_error * shortest, outside);
    std::vector<Probe> probes = probes_of(boundary, rules, near_zone);
    std::vector<Gauge>& gauges = outside ? thickness.gaps : thickness.strokes;
    append_necks(gauges, boundary, probes, rules, zone);
    for (const Probe& disc : largest_discs(boundary, probes)) {
      if (holds(zone, disc.ball.centre)) gauges.push_back({disc.ball.centre, 2 * disc.ball.radius});
      probes.push_back(disc);  // no taper where the probes missed the thickest place
    }
    if (!outside) append_tapers(gauges, boundary, probes, rules, zone);
    sort_by_width(gauges);
  }
  return thickness;
}

}  // namespace ordinatio
