#include "write/xml.h"

#include "base/base.h"
#include "write/colour.h"

namespace ordinatio::inline write {

void append_attribute(std::string& out, const char* name, double value, int decimals) {
  out += ' ';
  out += name;
  out += "=\"";
  append_number(out, value, decimals);
  out += '"';
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string xml_id(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
    out += plain ? c : '_';
    if (!plain) append_hex_byte(out, static_cast<std::uint8_t>(c));
  }
  return out;
}

}  // namespace ordinatio::inline write
