#pragma once

#include "write/write.h"

namespace ordinatio {

/// "#009E73"
std::string hex_of(Colour colour);

/// For each operation the nearest entry (by RGB) of the DXF colour index, 1–6, 8 and 9, that no operation before it has
/// taken: some machines go by colour, and the guide is never run. R12 knows no other colours.
std::array<int, all_operations.size()> aci_of(const Palette& palette);

}  // namespace ordinatio
