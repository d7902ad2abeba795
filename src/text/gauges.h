// What is thinnest in glyphs and where they join. Of this folder alone.
#pragma once

#include <functional>
#include <memory>

#include "geometry/thickness.h"
#include "text/ink.h"
#include "text/measured_glyphs.h"

namespace ordinatio::inline text {

inline constexpr GaugeRules em_rules{};  // its defaults are for ems
/// A glyph's outline as polygons, welded even where contours only touch.
Polygons solid_ink(const GlyphOutline& outline);

// Reached by long runs of unlike texts; what was used longest ago then goes, which costs time and changes nothing.
inline constexpr std::size_t most_joins = 1 << 13;

/// Keeps what was measured on glyphs, and on the welds of pairs that overlap, in bounded caches.
class GaugeCache {
 public:
  /// The name and axes of a face, as they are shared by.
  using NameOf = std::function<const std::string&(FaceId)>;
  GaugeCache(InkCache::OutlineOf outline_of, NameOf name_of, InkCache& ink, MeasuredOnce<Thickness>& shared)
      : outline_of_(std::move(outline_of)), name_of_(std::move(name_of)), ink_(&ink), shared_(&shared) {}

  LineGauges gauges_of(const ShapedLine& line, double spot);
  const Thickness& glyph(const PlacedGlyph& glyph);

 private:
  struct Join {
    Bounds zone;       // from the first glyph's origin; what of either glyph lies in it is measured on their weld
    Thickness inside;  // of the weld, in the zone
  };
  bool boxes_meet(const PlacedGlyph& a, const PlacedGlyph& b) const;
  const Join& join(const PlacedGlyph& a, const PlacedGlyph& b);

  InkCache::OutlineOf outline_of_;
  NameOf name_of_;
  InkCache* ink_;
  MeasuredOnce<Thickness>* shared_;
  RecentlyUsed<std::uint64_t, std::shared_ptr<const Thickness>> glyphs_{most_glyphs};
  RecentlyUsed<std::string, Join> joins_{most_joins};
};

}  // namespace ordinatio::inline text
