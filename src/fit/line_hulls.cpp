#include "fit/fit.h"

namespace ordinatio {

std::vector<ConvexHull> line_hulls(const Block& block) {
  std::vector<std::vector<Point>> lines(block.lines.size());
  for (const Block::Corners& glyph : block.corners) {
    for (const Point p : glyph.points) lines[glyph.line].push_back(glyph.at + glyph.size * p);
  }
  std::vector<ConvexHull> hulls;
  for (std::vector<Point>& points : lines) {
    if (!points.empty()) hulls.push_back(hull_of(std::move(points)));
  }
  return hulls;
}

}  // namespace ordinatio
