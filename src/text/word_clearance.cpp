#include "text/word_clearance.h"

#include <unicode/uscript.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace ordinatio::inline text {
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

Polygons placed_ink(const PlacedGlyph& glyph, double moved, const InkOf& ink_of) {
  Polygons polygons = polygons_of(ink_of(glyph).path, chord_error);
  for (Polygon& polygon : polygons) {
    for (Point& p : polygon) p = p + glyph.origin + Point{moved, 0};
  }
  return polygons;
}

double least_distance(const Polygons& left, const Polygons& right) {
  double least = 1e300;
  for (const Polygon& a : left) {
    for (const Polygon& b : right) least = std::min({least, least_distance(a, b), least_distance(b, a)});
  }
  return least;
}

Bounds grown_box(const PlacedGlyph& glyph, const InkOf& ink_of) {
  const Bounds box = ink_of(glyph).ink.shifted(glyph.origin);
  return {box.left - word_clearance, box.bottom - word_clearance, box.right + word_clearance, box.top + word_clearance};
}

/// Of two words, the right one moved; only glyphs whose boxes come near are looked at, and few do.
double distance_between(Word left, Word right, double moved, const InkOf& ink_of) {
  double least = 1e300;
  for (const PlacedGlyph& a : left) {
    if (ink_of(a).ink.empty()) continue;
    const Bounds near = grown_box(a, ink_of);
    for (const PlacedGlyph& b : right) {
      const Bounds& ink = ink_of(b).ink;
      if (ink.empty() || !overlap(near, ink.shifted(b.origin + Point{moved, 0}))) continue;
      least = std::min(least, least_distance(placed_ink(a, 0, ink_of), placed_ink(b, moved, ink_of)));
    }
  }
  return least;
}

/// em by which the right one must be moved.
double lacking_between(Word left, Word right, const InkOf& ink_of) {
  double moved = 0;
  for (int i = 0; i < most_moves; ++i) {
    const double lacking = word_clearance - distance_between(left, right, moved, ink_of);
    if (lacking <= near_enough) break;
    moved += lacking;
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
  double moved = 0;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const Word left = words[i - 1], right = words[i];
    // Up to the next word, so that the space behind it keeps its place beside it.
    const Word with_space{right.data(), i + 1 < words.size() ? words[i + 1].data() : &line.glyphs.back() + 1};
    const auto move = [&](double by) {
      for (PlacedGlyph& glyph : with_space) glyph.origin.x += by;
    };
    move(moved);
    const bool climbs = left.front().script == USCRIPT_ARABIC || right.front().script == USCRIPT_ARABIC;
    if (const double lacking = climbs ? lacking_between(left, right, ink_of) : 0; lacking > 0) {
      moved += lacking;
      move(lacking);
    }
  }
  line.advance += moved;
}

}  // namespace ordinatio::inline text
