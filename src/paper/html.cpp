#include "paper/run_sheet.h"
#include "paper/wording.h"
#include "write/xml.h"

namespace ordinatio::inline paper {

std::string html_text(std::string_view text) { return escaped(make_visible(text, " ").text); }

std::string html_address(std::string_view path) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out;
  for (const char c : path) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                       c == '.' || c == '_' || c == '~' || c == '/';
    if (plain) {
      out += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    out += {'%', digits[byte >> 4], digits[byte & 15]};
  }
  return out;
}

}  // namespace ordinatio::inline paper
