#include <algorithm>

#include "fit/fit.h"

namespace ordinatio {
namespace {

double start_x(const Bounds& ink, Alignment alignment) {
  switch (alignment) {
    case Alignment::left:
      return -ink.left;
    case Alignment::right:
      return -ink.right;
    default:
      return -ink.centre().x;
  }
}

/// From one baseline to the next: the leading, or more where ink would come closer than the least gap.
double step_down(const ShapedLine& above, const ShapedLine& below, const BlockStyle& style) {
  if (above.ink.empty() || below.ink.empty()) return style.leading;
  return std::max(style.leading, below.ink.top - above.ink.bottom + style.least_gap);
}

/// The height that the eye takes for the top of a line: capitals where there are any, else the x-height's
/// band.
double optical_top(const ShapedLine& line, const BlockStyle& style) {
  if (!line.alphabetic) return line.ink.top;
  const bool has_capitals = line.ink.top > 0.93 * style.cap_height;  // ascenders and figures stand as tall
  return has_capitals ? style.cap_height : line.ink.top;
}

double optical_bottom(const ShapedLine& line) {
  return line.alphabetic ? std::min(0.0, line.ink.top) : line.ink.bottom;
}

/// The middle to centre upright: descenders and accents do not shift a line of capitals.
double optical_middle(const Block& block, const BlockStyle& style) {
  const auto has_ink = [](const ShapedLine& line) { return !line.ink.empty(); };
  const auto first = std::ranges::find_if(block.lines, has_ink) - block.lines.begin();
  const auto last = block.lines.rend() - std::find_if(block.lines.rbegin(), block.lines.rend(), has_ink) - 1;
  const auto at = [](auto index) { return static_cast<std::size_t>(index); };
  return (block.origins[at(first)].y + optical_top(block.lines[at(first)], style) + block.origins[at(last)].y +
          optical_bottom(block.lines[at(last)])) /
         2;
}

}  // namespace

double support_of(const Block& block, Point normal) {
  double support = -1e300;
  for (const Block::Corners& glyph : block.corners) {
    // No point of the glyph reaches further than its box does: most glyphs are passed over by that.
    const Bounds& box = glyph.box;
    const Point furthest{normal.x > 0 ? box.right : box.left, normal.y > 0 ? box.top : box.bottom};
    if (dot(normal, furthest) <= support) continue;
    for (const Point p : glyph.points) support = std::max(support, dot(normal, glyph.at + p));
  }
  return support;
}

Block build_block(Typesetter& typesetter, std::vector<ShapedLine> lines, const BlockStyle& style) {
  Block block;
  double baseline = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0) baseline -= step_down(lines[i - 1], lines[i], style);
    const Point origin{lines[i].ink.empty() ? 0 : start_x(lines[i].ink, style.alignment), baseline};
    block.origins.push_back(origin);
    block.ink.add(lines[i].ink.shifted(origin));
    for (const PlacedGlyph& glyph : lines[i].glyphs) {
      const GlyphOutline& outline = typesetter.outline(glyph.face, glyph.glyph);
      const Point at = origin + glyph.origin;
      if (!outline.ink.empty()) block.corners.push_back({outline.hull.vertices, at, outline.ink.shifted(at), i});
    }
  }
  block.lines = std::move(lines);
  if (block.ink.empty()) return block;
  block.anchor = {block.ink.centre().x, optical_middle(block, style)};
  return block;
}

}  // namespace ordinatio
