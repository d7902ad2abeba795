// What a text and a face may be at most, so that no item costs more than its share of the day: limits on what comes from
// outside stand here together, each with its reason. What is beyond one is held, or refused, by the limit's name.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/base.h"

namespace ordinatio {

namespace text_limits {

// ---- an item's text ----

/// Characters of the cleaned text, all lines together: at 1.8 mm, the smallest lettering of ISO 3098-1, no more than
/// about 1,500 go on a piece of 100 × 150 mm.
inline constexpr std::size_t characters = 2'000;
/// Lines of the cleaned text: at 1.8 mm and a leading of 1.25, 60 lines are 190 mm high.
inline constexpr std::size_t lines = 60;
/// Characters as they came, before anything is cleaned: room for entities, doubled blanks and what is left out.
inline constexpr std::size_t raw_characters = 4 * characters;
/// Marks on one letter, its own among them: Tibetan's tallest stack, the seal of the ten powers, has eight below and above its
/// letter, pointed Hebrew with accents six or seven (from memory). Far below the 30 of a stream-safe text (UAX #15,
/// section 13), so that nothing sorts a wall of marks.
inline constexpr std::size_t marks = 10;
/// Of these, the ones that any script may take (Unicode's Inherited: accents, harakat), which stack without end: Vietnamese
/// has two, accented Lithuanian three, polytonic Greek with a length four, narrow phonetic writing five (common practice, no
/// source). More are a tower that nobody reads.
inline constexpr std::size_t accents = 5;

// ---- a face ----

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

}  // namespace text_limits

/// Before cleaning: whether the text is so long that it is not even looked at.
MaybeFault too_long(std::string_view original);
/// After it: by its characters and its lines.
MaybeFault too_long(std::span<const std::string> lines);

}  // namespace ordinatio
