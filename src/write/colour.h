#pragma once

#include "write/write.h"

namespace ordinatio {

/// "#009E73"
std::string hex_of(Colour colour);

/// The entry of the DXF colour index (1–9) nearest to the colour in RGB; R12 knows no other colours.
int aci_of(Colour colour);

}  // namespace ordinatio
