#include "text/word_clearance.h"

#include <unicode/uscript.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace ordinatio {
namespace {

constexpr double chord_error = 0.004;    // em: a twenty-fifth of the clearance
constexpr double near_enough = 1e-3;     // em short of the clearance
constexpr int most_moves = 8;            // each leaves a part of what is lacking, where edges slope; then it stays
constexpr std::size_t most_words = 200;  // of a line; beyond, words stand as the face has them

using Word = std::span<PlacedGlyph>;

double distance_to(Point p, Point a, Point b) {
  const Point along = b - a;
  const double square = dot(along, along);
  const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return length(p - (a + t * along));
}

double least_distance(const Polygon& from, const Polygon& to) {
  double least = 1e300;
  for (const Point p : from) {
    for (std::size_t i = 0; i < to.size(); ++i) least = std::min(least, distance_to(p, to[i], to[(i + 1) % to.size()]));
  }
  return least;
}

Bounds ink_bounds(const Polygon& polygon) {
  Bounds bounds;
  for (const Point p : polygon) bounds.add(p);
  return bounds;
}

Polygons ink_of_word(Word word, const InkOf& ink_of) {
  Polygons all;
  for (const PlacedGlyph& glyph : word) {
    for (Polygon& polygon : polygons_of(ink_of(glyph).path, chord_error)) {
      for (Point& p : polygon) p = p + glyph.origin;
      all.push_back(std::move(polygon));
    }
  }
  return all;
}

bool may_be_near(Bounds a, const Bounds& b) {
  a = {a.left - word_clearance, a.bottom - word_clearance, a.right + word_clearance, a.top + word_clearance};
  return overlap(a, b);
}

double distance_between(const Polygons& left, const Polygons& right) {
  double least = 1e300;
  for (const Polygon& a : left) {
    for (const Polygon& b : right) {
      if (may_be_near(ink_bounds(a), ink_bounds(b)))
        least = std::min({least, least_distance(a, b), least_distance(b, a)});
    }
  }
  return least;
}

/// em by which the right one must be moved.
double lacking_between(const Polygons& left, Polygons right) {
  double moved = 0;
  for (int i = 0; i < most_moves; ++i) {
    const double lacking = word_clearance - distance_between(left, right);
    if (lacking <= near_enough) break;
    moved += lacking;
    for (Polygon& polygon : right) {
      for (Point& p : polygon) p.x += lacking;
    }
  }
  return moved;
}

/// The words of the line as they stand from left to right, parted by spaces.
std::vector<Word> words_of(ShapedLine& line) {
  std::vector<Word> words;
  const auto is_space = [&](const PlacedGlyph& glyph) { return line.text[glyph.cluster] == ' '; };
  for (auto at = line.glyphs.begin(); at != line.glyphs.end();) {
    const auto begin = std::find_if_not(at, line.glyphs.end(), is_space);
    at = std::find_if(begin, line.glyphs.end(), is_space);
    if (begin != at) words.emplace_back(begin, at);
  }
  return words;
}

}  // namespace

void clear_words(ShapedLine& line, const InkOf& ink_of) {
  if (std::ranges::none_of(line.glyphs, [](const PlacedGlyph& g) { return g.script == USCRIPT_ARABIC; })) return;
  const std::vector<Word> words = words_of(line);
  if (words.size() < 2 || words.size() > most_words) return;
  Polygons left = ink_of_word(words.front(), ink_of);
  double moved = 0;
  for (std::size_t i = 1; i < words.size(); ++i) {
    // Up to the next word, so that the space behind it keeps its place beside it.
    const PlacedGlyph* end = i + 1 < words.size() ? words[i + 1].data() : line.glyphs.data() + line.glyphs.size();
    for (PlacedGlyph* glyph = words[i].data(); glyph != end; ++glyph) glyph->origin.x += moved;
    Polygons right = ink_of_word(words[i], ink_of);
    const bool climbs = words[i - 1].front().script == USCRIPT_ARABIC || words[i].front().script == USCRIPT_ARABIC;
    if (const double lacking = climbs ? lacking_between(left, right) : 0; lacking > 0) {
      moved += lacking;
      for (PlacedGlyph* glyph = words[i].data(); glyph != end; ++glyph) glyph->origin.x += lacking;
      right = ink_of_word(words[i], ink_of);
    }
    left = std::move(right);
  }
  line.advance += moved;
}

}  // namespace ordinatio
