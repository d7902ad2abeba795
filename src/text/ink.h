// Which glyphs of a line overlap, and their outlines welded into one. Of this folder alone.
#pragma once

#include "text/face.h"
#include "text/recently_used.h"

namespace ordinatio::inline text {

/// Glyphs that overlap one another, welded together; a group of one is a glyph that overlaps nothing.
using GlyphGroup = std::vector<std::size_t>;  // indices into ShapedLine::glyphs, ascending

inline constexpr double place_step = 1.0 / (1 << 20);  // em; places that differ by less share a cache entry's key
/// Two glyphs and how they lie to one another, as a key.
std::string pair_key(const PlacedGlyph& a, const PlacedGlyph& b);

// Reached by long runs of unlike texts; what was used longest ago then goes, which costs time and changes nothing. Of a joined
// script a group is a word, which seldom comes again: its weld is kept for the pieces and files of the next items alone.
inline constexpr std::size_t most_pairs = 1 << 16;        // some hundred bytes each
inline constexpr std::size_t most_weld_points = 1 << 18;  // 17 bytes each, 4.5 MB in all

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
  RecentlyUsed<std::string, bool> pairs_{most_pairs};
  RecentlyUsed<std::string, Path> welds_{most_weld_points};  // by points
};

}  // namespace ordinatio::inline text
