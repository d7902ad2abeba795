// What a face may be at most, so that no item costs more than its share of the day; each limit with its reason. What is beyond
// one is refused, by the limit's name. Of this folder alone.
#pragma once

#include <cstddef>

namespace ordinatio::inline text::face_limits {

/// Points of a glyph, and edges of its outline once its curves are chords: in the catalogue's faces 1,570 points and 3,250
/// edges are the most (own measurement). Measuring takes the square of the edges.
inline constexpr std::size_t glyph_points = 5'000;
inline constexpr std::size_t glyph_edges = 8'000;
/// em: how far a glyph's outline, its advance or its shift may reach. The longest words that are one glyph reach 6.3 em.
inline constexpr double glyph_reach = 16;
/// em round all contours of a glyph, 41 at the most in the catalogue: its outline is probed every few hundredths of an em.
inline constexpr double glyph_girth = 200;
/// Places where a glyph's edges cross: variable faces overlap their strokes a few dozen times.
inline constexpr std::size_t glyph_crossings = 2'000;
/// Glyphs that shaping may make of so many letters: a face's own table can make many of one.
[[nodiscard]] constexpr std::size_t shaped_glyphs(std::size_t letters) { return 8 * letters + 64; }

}  // namespace ordinatio::inline text::face_limits
