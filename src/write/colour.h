#pragma once

#include "write/write.h"

namespace ordinatio::inline write {

/// "#009E73"
std::string hex_of(Colour colour);
/// "9E"
void append_hex_byte(std::string& out, std::uint8_t byte);

}  // namespace ordinatio::inline write
