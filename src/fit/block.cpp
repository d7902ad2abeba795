#include <algorithm>

#include "fit/fit.h"
#include "fit/hanging.h"

namespace ordinatio {
namespace {

double start_x(const LineMeasure& line, double size, Alignment alignment) {
  switch (alignment) {
    case Alignment::left:
      return -size * line.left;
    case Alignment::right:
      return -size * line.right;
    default:
      return -size * (line.left + line.right) / 2;
  }
}

/// Every line as wide as the widest, but none enlarged by more than the ratio.
std::vector<double> sizes_of(std::span<const LineMeasure> lines, const BlockStyle& style) {
  std::vector<double> sizes;
  double widest = 0;
  for (const LineMeasure& line : lines) {
    sizes.push_back(line.size);
    widest = std::max(widest, line.size * (line.right - line.left));
  }
  if (style.sizes == LineSizes::as_styled) return sizes;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double width = sizes[i] * (lines[i].right - lines[i].left);
    if (width > 0) sizes[i] *= std::min(widest / width, style.width_ratio);
  }
  return sizes;
}

/// The height that the eye takes for the top of a line: capitals where there are any, else the x-height's band.
double optical_top(const ShapedLine& line, double cap_height) {
  if (!line.alphabetic) return line.ink.top;
  const bool has_capitals = line.ink.top > 0.93 * cap_height;  // ascenders and figures stand as tall
  return has_capitals ? cap_height : line.ink.top;
}

double optical_bottom(const ShapedLine& line) {
  return line.alphabetic ? std::min(0.0, line.ink.top) : line.ink.bottom;
}

/// The middle to centre upright: descenders and accents do not shift a line of capitals.
double optical_middle(std::span<const LineMeasure> lines, const Arrangement& arrangement) {
  const auto has_ink = [](const LineMeasure& line) { return !line.ink.empty(); };
  const auto first = static_cast<std::size_t>(std::ranges::find_if(lines, has_ink) - lines.begin());
  std::size_t last = lines.size() - 1;
  while (!has_ink(lines[last])) --last;
  return (arrangement.origins[first].y + arrangement.sizes[first] * lines[first].optical_top +
          arrangement.origins[last].y + arrangement.sizes[last] * lines[last].optical_bottom) /
         2;
}

Bounds scaled(const Bounds& box, double size) {
  return {size * box.left, size * box.bottom, size * box.right, size * box.top};
}

}  // namespace

LineMeasure measure_line(const ShapedLine& line, double size, double cap_height, Typesetter& typesetter,
                         const BlockStyle& style) {
  LineMeasure measure{line.ink, 0, 0, 0, 0, size};
  if (line.ink.empty()) return measure;
  const Overhang overhang = style.hang_punctuation ? overhang_of(line, typesetter) : Overhang{};
  measure.left = line.ink.left + overhang.left;
  measure.right = line.ink.right - overhang.right;
  measure.optical_top = optical_top(line, cap_height);
  measure.optical_bottom = optical_bottom(line);
  return measure;
}

Arrangement arrange(std::span<const LineMeasure> lines, const BlockStyle& style) {
  Arrangement result;
  result.sizes = sizes_of(lines, style);
  double baseline = 0;
  double lowest = 1e300;  // of all ink so far: empty lines between do not let it meet
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double size = result.sizes[i], above = result.sizes[i == 0 ? 0 : i - 1];
    if (i > 0) baseline -= style.leading * (leading_below * above + (1 - leading_below) * size);
    const bool blank = lines[i].ink.empty();
    if (!blank && i > 0) {
      baseline = std::min(baseline, lowest - style.least_gap * (above + size) / 2 - size * lines[i].ink.top);
    }
    result.origins.push_back({blank ? 0 : start_x(lines[i], size, style.alignment), baseline});
    if (blank) continue;
    const Bounds ink = scaled(lines[i].ink, size).shifted(result.origins[i]);
    result.ink.add(ink);
    lowest = std::min(lowest, ink.bottom);
  }
  if (result.ink.empty()) return result;
  const bool on_axis = style.hang_punctuation && style.alignment == Alignment::centre;  // what hangs shifts nothing
  result.anchor = {on_axis ? 0 : result.ink.centre().x, optical_middle(lines, result)};
  return result;
}

double support_of(const Block& block, Point normal) {
  double support = -1e300;
  for (const Block::Corners& glyph : block.corners) {
    // No point of the glyph reaches further than its box does: most glyphs are passed over by that.
    const Bounds& box = glyph.box;
    const Point furthest{normal.x > 0 ? box.right : box.left, normal.y > 0 ? box.top : box.bottom};
    if (dot(normal, furthest) <= support) continue;
    for (const Point p : glyph.points) support = std::max(support, dot(normal, glyph.at + glyph.size * p));
  }
  return support;
}

Block build_block(Typesetter& typesetter, std::vector<BlockLine> lines, const BlockStyle& style) {
  std::vector<LineMeasure> measures;
  for (const BlockLine& line : lines) {
    measures.push_back(measure_line(line.shaped, line.size, line.cap_height, typesetter, style));
  }
  Arrangement arrangement = arrange(measures, style);
  Block block;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double size = lines[i].size = arrangement.sizes[i];
    for (const PlacedGlyph& glyph : lines[i].shaped.glyphs) {
      const GlyphOutline& outline = typesetter.outline(glyph.face, glyph.glyph);
      const Point at = arrangement.origins[i] + size * glyph.origin;
      if (outline.ink.empty()) continue;
      block.corners.push_back({outline.hull.vertices, at, size, scaled(outline.ink, size).shifted(at), i});
    }
  }
  block.lines = std::move(lines);
  block.origins = std::move(arrangement.origins);
  block.ink = arrangement.ink;
  block.anchor = arrangement.anchor;
  return block;
}

}  // namespace ordinatio
