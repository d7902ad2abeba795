// Artwork, drawn for people to look at. Of this folder alone.
#pragma once

#include "paper/lettering.h"

namespace ordinatio::inline paper {

/// The piece's edge, what is kept clear on it, and all ink in black; `to_page` may reduce it.
void draw_artwork(Canvas& canvas, Lettering& lettering, const Artwork& artwork, const Transform& to_page);
/// What that fills at true size, mm².
double ink_of(const Artwork& artwork);

}  // namespace ordinatio::inline paper
