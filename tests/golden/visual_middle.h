// In: ink as it is engraved. Out: where the eye takes its middle, from what is seen alone.
// Never: knows letters, faces, scripts or how a block was placed.
#pragma once

#include "awkward.h"
#include "design/design.h"

namespace golden {

/// How high the visual middle of ink stands, mm. Each row of a picture counts by the square root of its ink: a few tall
/// strokes count for more than their area, and for less than the letters that they stand on. The exponent is that of
/// brightness and of area as they are perceived, about a half (Stevens 1957, Psychological Review 64:153; from memory).
/// From pixels of 1/8 mm; NaN where there is no ink.
double visual_middle(const ordinatio::Path& ink);

/// The optical error of a text: how far its visual middle is from the middle of where it may lie, mm, upwards positive.
struct MiddleError {
  std::string name, script;     // the script as ISO 15924, with a language where that decides the hand: "Arab ur"
  double error = 0;             // mm
  double above = 0, below = 0;  // mm, from the ink to the edges of where it may lie
  double em = 0;                // mm
};
/// Of each text on a rectangle, where nothing but its middle settles its place, that fills no more of the height than leaves it
/// free to stand elsewhere.
std::vector<MiddleError> middle_errors(const std::vector<AwkwardText>& texts);
inline constexpr double free_room = 2;  // mm; above and below together: less leaves no choice that is seen

}  // namespace golden
