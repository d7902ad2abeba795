#include "codes/codes.h"

#include <qrencode.h>

#include <memory>

namespace ordinatio::inline codes {
namespace {

struct QrRelease {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

/// A run of modules of one row, from the code's lower left corner.
Polygon run_of(const QrCode& code, int row, int first, int last) {
  const double bottom = code.side - 1 - row;
  return polygon_of_box({static_cast<double>(first), bottom, static_cast<double>(last), bottom + 1});
}

}  // namespace

Result<QrCode> qr_code(std::string_view text) {
  if (text.empty() || text.size() > code_text_limit) {
    return Fault{
        "there is no code for " + std::string(text.empty() ? "an empty text" : "so long a number"), "",
        "it has " + std::to_string(text.size()) + " bytes, 1 to " + std::to_string(code_text_limit) + " are allowed",
        "Give its order a shorter number"};
  }
  const std::string number(text);  // ends with a zero
  const std::unique_ptr<QRcode, QrRelease> made(
      QRcode_encodeString(number.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, /* capitals count */ 1));
  if (!made)
    return Fault{"there is no code for " + number, "", "it cannot be encoded", "Give its order another number"};
  QrCode code;
  code.side = made->width;
  const auto count = static_cast<std::size_t>(code.side) * static_cast<std::size_t>(code.side);
  code.dark.reserve(count);
  for (std::size_t i = 0; i < count; ++i) code.dark.push_back((made->data[i] & 1) != 0);
  return code;
}

Polygons outlines_of(const QrCode& code, double module, bool light) {
  Polygons runs;
  for (int row = 0; row < code.side; ++row) {
    for (int column = 0; column < code.side;) {
      const int first = column;
      while (code.is_dark(row, column)) ++column;
      if (column > first) runs.push_back(run_of(code, row, first, column));
      if (column == first) ++column;
    }
  }
  // In whole modules: the weld is exact, and lines up with no other grid.
  Polygons outlines = weld(runs, 1);
  if (light) {
    const auto whole = static_cast<double>(code.side + quiet_modules);
    outlines = difference({polygon_of_box({-quiet_modules, -quiet_modules, whole, whole})}, outlines, 1);
  }
  for (Polygon& outline : outlines) {
    for (Point& corner : outline) corner = module * (corner + Point{quiet_modules, quiet_modules});
  }
  return outlines;
}

}  // namespace ordinatio::inline codes
