// What an item's text may be at most, so that none costs more than its share of the day; each limit with its reason. What is
// beyond one is held, by the limit's name.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/base.h"

namespace ordinatio::inline cleaning {

namespace text_limits {

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

}  // namespace text_limits

/// Before cleaning: whether the text is so long that it is not even looked at.
MaybeFault too_long(std::string_view original);
/// After it: by its characters and its lines.
MaybeFault too_long(std::span<const std::string> lines);

}  // namespace ordinatio::inline cleaning
