// The true ink hulls of a block's lines, by the glyphs' own.
#pragma once

#include "fit/fit.h"

namespace ordinatio {

/// Of the block's lines, blank ones left out.
inline std::vector<ConvexHull> line_hulls(const Block& block, Typesetter& typesetter) {
  std::vector<ConvexHull> hulls;
  for (std::size_t i = 0; i < block.lines.size(); ++i) {
    const BlockLine& line = block.lines[i];
    std::vector<Point> points;
    for (const PlacedGlyph& glyph : line.shaped.glyphs) {
      const Point at = block.origins[i] + line.size * glyph.origin;
      for (const Point p : typesetter.outline(glyph.face, glyph.glyph).hull.vertices)
        points.push_back(at + line.size * p);
    }
    if (!points.empty()) hulls.push_back(hull_of(std::move(points)));
  }
  return hulls;
}

/// How far the ink reaches in that direction.
inline double reach_of(const Block& block, Typesetter& typesetter, Point normal) {
  double most = -1e300;
  for (const ConvexHull& hull : line_hulls(block, typesetter)) most = std::max(most, support_of(hull, normal));
  return most;
}

}  // namespace ordinatio
