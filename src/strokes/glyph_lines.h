// The lines of fonts/stroke.txt, read. Of this folder alone.
#pragma once

#include <map>
#include <optional>
#include <string_view>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline strokes {

struct DrawnGlyph {
  double left = 0, right = 0;
  Path path;
  std::optional<Point> above, below, ogonek;  // where marks sit
};
struct KerningLine {
  std::u32string left, right;
  double by = 0;
};
struct GlyphLines {
  std::map<char32_t, DrawnGlyph> glyphs;
  std::vector<KerningLine> kerning;
};

/// Throws, with the line, where the text is not as its head says.
GlyphLines read_glyph_lines(std::string_view text);

}  // namespace ordinatio::inline strokes
