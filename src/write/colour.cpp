#include "write/colour.h"

namespace ordinatio::inline write {

void append_hex_byte(std::string& out, std::uint8_t byte) {
  out += "0123456789ABCDEF"[byte >> 4];
  out += "0123456789ABCDEF"[byte & 15];
}

std::string hex_of(Colour colour) {
  std::string text = "#";
  for (const std::uint8_t channel : {colour.red, colour.green, colour.blue}) append_hex_byte(text, channel);
  return text;
}

}  // namespace ordinatio::inline write
