// In: a sheet, and room on a page.
// Out: the bed as the person stands before it, drawn there: pockets with their numbers, pieces as they lie, ink, marks.
// Never: says what is to be done. Of this folder alone.
#pragma once

#include "paper/lettering.h"

namespace ordinatio::inline paper {

/// How tall the picture comes out in a room of this width and height, with what stands below it.
double loading_picture_height(const Sheet& sheet, double width, double height);
/// `room`: page mm; the picture stands at its upper edge, in its middle. Nothing in it is set smaller than `least`, mm per em.
void draw_loading_picture(Canvas& canvas, Lettering& lettering, const Sheet& sheet, const Bounds& room, double least);

}  // namespace ordinatio::inline paper
