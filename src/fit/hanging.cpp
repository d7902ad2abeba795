#include "fit/hanging.h"

#include <algorithm>

namespace ordinatio::inline fit {
namespace {

struct HangingShare {
  std::string_view sign;
  double share;  // of the sign's ink width
};

// Points, commas, colons and marks as the microtype package for TeX hangs them; hyphens and dashes as typst does.
// Quotes by half: common practice, no source.
constexpr HangingShare hanging[] = {
    {".", 0.7},  {"…", 0.7},  {",", 0.5}, {":", 0.5},  {";", 0.3},  {"!", 0.1},  {"?", 0.1},
    {"-", 0.55}, {"‐", 0.55}, {"–", 0.2}, {"—", 0.2},  {"\"", 0.5}, {"'", 0.5},  {"“", 0.5},
    {"”", 0.5},  {"„", 0.5},  {"‘", 0.5}, {"’", 0.5},  {"‚", 0.5},  {"«", 0.5},  {"»", 0.5},
    {"‹", 0.5},  {"›", 0.5},  {"،", 0.5}, {"、", 0.5}, {"。", 0.5}, {"「", 0.5}, {"」", 0.5},
};

double share_of(std::string_view text) {
  const auto found = std::ranges::find_if(hanging, [text](const HangingShare& h) { return text.starts_with(h.sign); });
  return found == std::end(hanging) ? 0 : found->share;
}

}  // namespace

Overhang overhang_of(const ShapedLine& line, Typesetter& typesetter) {
  const auto ink_of = [&typesetter](const PlacedGlyph& glyph) -> const Bounds& {
    return typesetter.outline(glyph.face, glyph.glyph).ink;
  };
  const auto hangs_by = [&](const PlacedGlyph& glyph) {
    return share_of(std::string_view(line.text).substr(glyph.cluster)) * ink_of(glyph).width();
  };
  const auto has_ink = [&](const PlacedGlyph& glyph) { return !ink_of(glyph).empty(); };
  const auto first = std::ranges::find_if(line.glyphs, has_ink);
  const auto last = std::find_if(line.glyphs.rbegin(), line.glyphs.rend(), has_ink);
  if (first == line.glyphs.end() || std::next(first) == last.base()) return {};  // nothing, or one sign alone
  return {hangs_by(*first), hangs_by(*last)};
}

}  // namespace ordinatio::inline fit
