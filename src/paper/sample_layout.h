// Where the samples of a design stand on the page of its specimen. Of this folder alone.
#pragma once

#include <span>

#include "paper/page.h"

namespace ordinatio::inline paper {

/// A sample in its place: the upper left corner of its piece, mm on the page, and how many times smaller it is drawn.
struct PlacedSample {
  const Artwork* artwork;
  double reduction;
  Point at;
};

/// On A4: the first as large as it goes, the others beside it or below it, all at one scale. Scales are those of ISO 5455;
/// where the first would leave the others too little room, it is smaller itself. At least one artwork.
std::vector<PlacedSample> lay_samples(std::span<const Artwork> artworks);

/// Of the piece, mm.
Bounds piece_box(const Artwork& artwork);

inline constexpr int sample_words_lines = 3;       // grid lines of what is said of a design, above its pictures
inline constexpr double sample_caption_below = 4;  // mm from a picture to the baseline of its caption
inline constexpr double sample_gap = 6;            // mm between pictures

}  // namespace ordinatio::inline paper
