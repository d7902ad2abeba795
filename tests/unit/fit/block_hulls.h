// The true ink hulls of a block's lines, by the glyphs' own.
#pragma once

#include "fit/fit.h"

/// Of the block's lines, blank ones left out.
inline std::vector<ordinatio::ConvexHull> line_hulls(const ordinatio::Block& block, ordinatio::Typesetter& typesetter) {
  using namespace ordinatio;
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
inline double reach_of(const ordinatio::Block& block, ordinatio::Typesetter& typesetter, ordinatio::Point normal) {
  double most = -1e300;
  for (const ordinatio::ConvexHull& hull : line_hulls(block, typesetter))
    most = std::max(most, support_of(hull, normal));
  return most;
}
