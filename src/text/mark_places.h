// In: a mark's class and its ink beside that of its letter. Out: whether it is where marks of that class belong. Never: knows a
// face. Of this folder alone.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio::inline text {

/// Where Unicode places a mark (canonical combining class, UAX #44 table 15).
enum class MarkPlace { above, below, attached_below, through, around, elsewhere };
MarkPlace mark_place(char32_t mark);

/// A mark that was set, ems.
struct SetMark {
  Bounds ink;
  Bounds letter;          // the ink of its letter, and of the marks already on it
  bool touches = false;   // their ink overlaps
  bool anchored = false;  // the face says itself where it belongs
};

/// Without an anchor the mark has to be where composed letters have it; with one it must not be where none can be.
bool is_in_place(MarkPlace place, const SetMark& mark);

// Over the composed letters of the catalogue's Latin, Greek and Cyrillic faces, 12 of them, marks above stand clear of
// their letter by 0.0 to 0.153 em, marks below by 0.024 to 0.118, and the middle of their ink is within 0.095 em of the
// letter's in upright faces (own measurement; a second mark beside the first of Vietnamese letters left out).
inline constexpr double most_gap = 0.16;    // em
inline constexpr double least_gap = -0.02;  // em; a tail or an arch that swells above the letter's height
inline constexpr double most_aside = 0.11;  // em, middle to middle
// An anchor is trusted further: over the stem of an h or a d, high above a letter that the eye takes for lower. It is not
// where it sets a mark under one leg of an A, or over one half of ы: 0.28 and 0.42 of the letter's width.
inline constexpr double anchored_gap = 0.30;    // em
inline constexpr double anchored_aside = 0.25;  // of the letter's width, middle to middle

}  // namespace ordinatio::inline text
