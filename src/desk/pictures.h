// Drawings for the page: SVG whose shapes have class names, which the page gives colours. Of this folder alone.
#pragma once

#include <string>

#include "bed/bed.h"

namespace ordinatio::inline desk {

/// A plaque on its own piece, as it is seen: outline, chips, what is kept clear, the edge of the clear area, the ink.
std::string plaque_picture(const Artwork& artwork);
/// A piece with nothing on it.
std::string piece_picture(const Blank& blank);
/// A bed as the person stands before it: a group a pocket, with its piece and ink, and the registration marks.
std::string bed_picture(const Sheet& sheet);

/// "slate", "glass", "wood", "brass" or "other", of a material in the workshop's own word: for its tint alone.
std::string tint_of(const std::string& material);

}  // namespace ordinatio::inline desk
