#pragma once

#include "write/write.h"

namespace ordinatio {

/// "#009E73"
std::string hex_of(Colour colour);

}  // namespace ordinatio
