// In: a photo's light. Out: what looks like a mark of the card, and to a fraction of a pixel where its quarters meet.
// Never: knows which mark it is. Of this folder alone.
#pragma once

#include <optional>
#include <vector>

#include "photo/brightness.h"

namespace ordinatio::inline photo {

/// A disc, seen at any angle as an ellipse, dark but for one or two light parts about its middle.
struct SeenMark {
  Point centre;                   // of the ellipse, pixels; where the quarters meet once it is refined
  double xx = 0, xy = 0, yy = 0;  // second moments of the ellipse about its centre, pixels²
  double dark = 0, light = 0;     // means of its parts

  [[nodiscard]] double area() const;      // of the ellipse, pixels²
  [[nodiscard]] double narrower() const;  // the smaller semi-axis, pixels
};

// ---- seen_mark.cpp ----
/// The most likely ones first, at most `most_seen`.
std::vector<SeenMark> seen_marks(const Brightness& brightness);
inline constexpr std::size_t most_seen = 16;  // four are a card's, four a second one's; the rest are letters and knots

// ---- corner.cpp ----
/// Where four quarters meet near `near`, searched within `radius` pixels: the point whose join to each pixel stands at right
/// angles to the light's gradient there, weighted by it (W. Förstner and E. Gülch, "A fast operator for detection and precise
/// location of distinct points, corners and centres of circular features", ISPRS Intercommission Workshop, 1987). Noise draws
/// it to the window's middle, so the window follows until it rests. Nothing where no edges cross or it leaves the window.
std::optional<Point> quarters_meet(const Brightness& brightness, Point near, double radius);

}  // namespace ordinatio::inline photo
