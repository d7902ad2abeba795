#include "text/gauges.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace ordinatio::inline text {
namespace {

constexpr double grid = em_rules.chord_error / 64;
// Where two glyphs overlap, what lies this near is measured on their weld: as far from its end as a thin taper is shown.
constexpr double about_join = 3 * em_rules.tip_depth;

bool inside(const Bounds& zone, Point p) {
  return p.x >= zone.left && p.x <= zone.right && p.y >= zone.bottom && p.y <= zone.top;
}

/// Gathers the least of a line: of each part what lies outside the zones where it joins another.
class LeastGauges {
 public:
  explicit LeastGauges(double spot) : spot_(spot) {}

  void take(const Thickness& thickness, const PlacedGlyph& glyph, const std::vector<Bounds>& zones) {
    zones_ = &zones, origin_ = glyph.origin;
    take_first(least_.stroke, thickness.strokes);
    take_first(least_.gap, thickness.gaps);
    take_first(least_.counter, thickness.counters);
    for (const Slit& slit : thickness.slits) {
      Gauge& least = slit.closed ? least_.counter : least_.slit;
      if (slit.gauge.width >= std::min(spot_, least.width) || depth_under(slit, spot_) <= deep_in_spots * spot_)
        continue;
      if (take_first(least, {&slit.gauge, 1}) && !slit.closed) least_.slit_cluster = glyph.cluster;
    }
  }
  [[nodiscard]] const LineGauges& least() const { return least_; }

 private:
  /// The first of ascending gauges that lies outside all zones; true where it is less.
  bool take_first(Gauge& least, std::span<const Gauge> gauges) const {
    for (const Gauge& gauge : gauges) {
      if (gauge.width >= least.width) return false;
      const Point at = gauge.at + origin_;
      if (std::ranges::any_of(*zones_, [&](const Bounds& zone) { return inside(zone, at); })) continue;
      least = {at, gauge.width};
      return true;
    }
    return false;
  }

  double spot_;
  LineGauges least_;
  const std::vector<Bounds>* zones_ = nullptr;
  Point origin_;
};

Bounds bounds_of(const Polygons& polygons, double grown) {
  Bounds bounds;
  for (const Polygon& polygon : polygons) {
    for (const Point p : polygon) bounds.add(p);
  }
  return {bounds.left - grown, bounds.bottom - grown, bounds.right + grown, bounds.top + grown};
}

}  // namespace

Polygons solid_ink(const GlyphOutline& outline) { return weld(polygons_of(outline.path, em_rules.chord_error), grid); }

const Thickness& GaugeCache::glyph(const PlacedGlyph& glyph) {
  const std::uint64_t key = std::uint64_t{glyph.face} << 32 | glyph.glyph;
  if (const auto* known = glyphs_.find(key)) return **known;
  const auto measure = [&] { return thickness_of(solid_ink(outline_of_(glyph)), em_rules); };
  return *glyphs_.keep(key, shared_->of(name_of_(glyph.face), glyph.glyph, measure));
}

const GaugeCache::Join& GaugeCache::join(const PlacedGlyph& a, const PlacedGlyph& b) {
  const std::string key = pair_key(a, b);
  if (const Join* known = joins_.find(key)) return *known;
  // As the key says it, so that the same is told whichever of two alike pairs came first.
  const auto on_step = [](double place) { return std::round(place / place_step) * place_step; };
  const Point shift{on_step(b.origin.x - a.origin.x), on_step(b.origin.y - a.origin.y)};
  Polygons both = solid_ink(outline_of_(a)), second = solid_ink(outline_of_(b));
  for (Polygon& polygon : second) {
    for (Point& p : polygon) p = p + shift;
  }
  Join join;
  join.zone = bounds_of(intersection(both, second, grid), about_join);
  both.insert(both.end(), second.begin(), second.end());
  join.inside = thickness_of(weld(both, grid), em_rules, &join.zone);
  return joins_.keep(key, std::move(join));
}

bool GaugeCache::boxes_meet(const PlacedGlyph& a, const PlacedGlyph& b) const {
  return overlap(outline_of_(a).ink.shifted(a.origin), outline_of_(b).ink.shifted(b.origin));
}

LineGauges GaugeCache::gauges_of(const ShapedLine& line, double spot) {
  LeastGauges least(spot);
  std::vector<std::vector<Bounds>> zones(line.glyphs.size());
  for (const GlyphGroup& group : ink_->groups_of(line)) {
    for (std::size_t i = 0; i < group.size(); ++i) {
      for (std::size_t j = i + 1; j < group.size(); ++j) {
        const PlacedGlyph &a = line.glyphs[group[i]], &b = line.glyphs[group[j]];
        if (!boxes_meet(a, b) || !ink_->overlap_each_other(a, b)) continue;
        const Join& joined = join(a, b);
        least.take(joined.inside, a, {});
        for (const std::size_t k : {group[i], group[j]}) zones[k].push_back(joined.zone.shifted(a.origin));
      }
    }
  }
  for (std::size_t i = 0; i < line.glyphs.size(); ++i) {
    if (!outline_of_(line.glyphs[i]).ink.empty()) least.take(glyph(line.glyphs[i]), line.glyphs[i], zones[i]);
  }
  return least.least();
}

}  // namespace ordinatio::inline text
