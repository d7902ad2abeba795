#include "text/ink.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ordinatio::inline text {
namespace {

constexpr double pair_tolerance = 1e-5;  // em, as for a glyph's own contours

template <class Value>
void append_bytes(std::string& key, Value value) {
  key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

void append_glyph(std::string& key, const PlacedGlyph& glyph, Point from) {
  append_bytes(key, glyph.face);
  append_bytes(key, glyph.glyph);
  append_bytes(key, std::llround((glyph.origin.x - from.x) / place_step));
  append_bytes(key, std::llround((glyph.origin.y - from.y) / place_step));
}

/// Joins the sets of a and b (union-find with path halving).
std::size_t root_of(std::vector<std::size_t>& parents, std::size_t i) {
  while (parents[i] != i) i = parents[i] = parents[parents[i]];
  return i;
}

/// The power of two at or below the tolerance: sizes that are alike share their welds.
double tolerance_class(double tolerance) { return std::exp2(std::floor(std::log2(tolerance))); }

}  // namespace

std::string pair_key(const PlacedGlyph& a, const PlacedGlyph& b) {
  std::string key;
  append_glyph(key, a, a.origin);
  append_glyph(key, b, a.origin);
  return key;
}

bool InkCache::overlap_each_other(const PlacedGlyph& a, const PlacedGlyph& b) {
  const std::string key = pair_key(a, b);
  if (const bool* known = pairs_.find(key)) return *known;
  const auto solid = [this](const PlacedGlyph& glyph) {
    const GlyphOutline& outline = outline_of_(glyph);
    const Polygons polygons = polygons_of(outline.path, pair_tolerance);
    return path_of(outline.overlaps ? weld(polygons, pair_tolerance / 64) : polygons);
  };
  Path both = solid(a);
  both.append(solid(b), shift_by(b.origin - a.origin));
  return pairs_.keep(key, contours_overlap(both, pair_tolerance));
}

std::vector<GlyphGroup> InkCache::groups_of(const ShapedLine& line) {
  const std::size_t count = line.glyphs.size();
  std::vector<Bounds> inks(count);
  for (std::size_t i = 0; i < count; ++i) inks[i] = outline_of_(line.glyphs[i]).ink.shifted(line.glyphs[i].origin);
  std::vector<std::size_t> parents(count);
  std::iota(parents.begin(), parents.end(), std::size_t{0});
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 1; j < count; ++j) {
      if (!overlap(inks[i], inks[j]) || root_of(parents, i) == root_of(parents, j)) continue;
      if (overlap_each_other(line.glyphs[i], line.glyphs[j])) parents[root_of(parents, j)] = root_of(parents, i);
    }
  }
  std::vector<GlyphGroup> by_root(count);
  for (std::size_t i = 0; i < count; ++i) {
    if (!inks[i].empty()) by_root[root_of(parents, i)].push_back(i);
  }
  std::erase_if(by_root, [](const GlyphGroup& group) { return group.empty(); });
  return by_root;
}

const Path& InkCache::welded(const ShapedLine& line, const GlyphGroup& group, double tolerance_em) {
  const double tolerance = tolerance_class(tolerance_em);
  const Point from = line.glyphs[group.front()].origin;
  std::string key;
  append_bytes(key, tolerance);
  for (const std::size_t i : group) append_glyph(key, line.glyphs[i], from);
  if (const Path* known = welds_.find(key)) return *known;
  Path together;
  for (const std::size_t i : group) {
    together.append(outline_of_(line.glyphs[i]).path, shift_by(line.glyphs[i].origin - from));
  }
  Path weld_path = path_of(weld(polygons_of(together, tolerance), tolerance / 64));
  const std::size_t points = weld_path.points().size();
  return welds_.keep(key, std::move(weld_path), points);
}

}  // namespace ordinatio::inline text
