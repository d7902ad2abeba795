#include "geometry/thickness.h"

#include <algorithm>
#include <tuple>

#include "geometry/medial.h"

namespace ordinatio::inline geometry {
namespace {

constexpr double shortest = 1.0 / 16;  // of chord_error: shorter edges are rounding

bool is_narrower(const Gauge& a, const Gauge& b) {
  return std::tie(a.width, a.at.x, a.at.y) < std::tie(b.width, b.at.x, b.at.y);
}

void sort_by_width(std::vector<Gauge>& gauges) { std::ranges::sort(gauges, is_narrower); }

Gauge gauge_of(const Probe& disc) { return {disc.ball.centre, 2 * disc.ball.radius}; }

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
    std::vector<NeckPlace> necks = necks_of(boundary, probes, rules, zone);
    std::ranges::stable_sort(necks, is_narrower, &NeckPlace::gauge);
    for (const NeckPlace& neck : necks) gauges.push_back(neck.gauge);
    std::vector<Probe> discs = largest_discs(boundary, probes);
    std::erase_if(discs, [zone](const Probe& disc) { return !holds(zone, disc.ball.centre); });
    for (const Probe& disc : discs) gauges.push_back(gauge_of(disc));
    if (outside) {
      thickness.slits = slits_of(boundary, probes, necks, discs, rules);
      for (const Probe& disc : discs) {
        if (gauge_of(disc).width >= rules.seam) thickness.counters.push_back(gauge_of(disc));
      }
    }
    probes.insert(probes.end(), discs.begin(), discs.end());  // no taper where the probes missed the thickest place
    if (!outside) append_tapers(gauges, boundary, probes, rules, zone);
    sort_by_width(gauges);
  }
  sort_by_width(thickness.counters);
  return thickness;
}

}  // namespace ordinatio::inline geometry
