// Which glyphs of a line overlap, and their outlines welded into one. Of this folder alone.
#pragma once

#include <unordered_map>

#include "text/face.h"

namespace ordinatio {

/// Glyphs that overlap one another, welded together; a group of one is a glyph that overlaps nothing.
using GlyphGroup = std::vector<std::size_t>;  // indices into ShapedLine::glyphs, ascending

inline constexpr double place_step = 1.0 / (1 << 20);  // em; places that differ by less share a cache entry's key
/// Two glyphs and how they lie to one another, as a key.
std::string pair_key(const PlacedGlyph& a, const PlacedGlyph& b);

/// Keeps what was found out about pairs and groups, by glyph and relative place, in bounded caches.
class InkCache {
 public:
  using OutlineOf = std::function<const GlyphOutline&(const PlacedGlyph&)>;
  explicit InkCache(OutlineOf outline_of) : outline_of_(std::move(outline_of)) {}

  std::vector<GlyphGroup> groups_of(const ShapedLine& line);
  bool overlap_each_other(const PlacedGlyph& a, const PlacedGlyph& b);
  /// The union of the group's outlines in ems, relative to its first glyph's origin, chords within
  /// `tolerance_em`.
  const Path& welded(const ShapedLine& line, const GlyphGroup& group, double tolerance_em);

 private:
  OutlineOf outline_of_;
  std::unordered_map<std::string, bool> pairs_;
  std::unordered_map<std::string, Path> welds_;
};

}  // namespace ordinatio
