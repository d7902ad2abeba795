// Polygons on a raster, and how far each pixel lies from the nearest of a set: for checks of thickness.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio {

/// How far what an opening by a disc takes away reaches from what it leaves: the depth of the deepest ink pixel that no
/// disc of this radius within the ink covers. All in the polygons' unit.
double deepest_residue(const Polygons& ink, double pixel, double radius);

}  // namespace ordinatio
