// In: the table from above. Out: which of its pixels are the piece, and what there is to doubt about that.
// Never: measures the piece to less than a pixel. Of this folder alone.
#pragma once

#include <string>

#include "photo/components.h"
#include "photo/photo.h"

namespace ordinatio::inline photo {

struct PieceMask {
  Mask mask;             // of the table's picture; what it encloses belongs to it
  bool has_edge = true;  // all around; otherwise no more than its box can be told
  std::string doubt;     // in words for people; empty: none
};

// ---- background.cpp ----
/// How far each pixel's colour is from what the table's would be there, in sRGB's steps (0 to 441). The table is one colour that
/// the light changes slowly across the picture (a quadratic in x and y); it is taken from what lies around the card and along the
/// picture's edge, without what does not fit. Below zero where nothing is to be looked for.
std::vector<float> distances_from_table(const TablePicture& table);
inline constexpr float out_of_sight = -1, on_the_card = -2;

// ---- piece_mask.cpp ----
/// Parted from the table by Otsu's threshold (N. Otsu, "A threshold selection method from gray-level histograms", IEEE SMC 9(1),
/// 1979); the largest thing that does not hang together with the card's paper. Faults: nothing there.
Result<PieceMask> piece_mask(const TablePicture& table);

}  // namespace ordinatio::inline photo
