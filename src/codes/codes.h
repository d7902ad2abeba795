// In: a short text, such as an item's number.
// Out: its QR code (ISO/IEC 18004): modules, and their outlines in mm.
// Never: decides how large a code is, draws it, or reads one.
#pragma once

#include <string_view>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline codes {

/// Modules of light about a code, on each side (ISO/IEC 18004).
inline constexpr int quiet_modules = 4;
/// A longer text is no number of an item; its code would be too fine for a label.
inline constexpr std::size_t code_text_limit = 100;  // bytes

/// A square of modules, without the light about it.
struct QrCode {
  int side = 0;            // modules
  std::vector<bool> dark;  // row by row, from the top left

  /// Row 0 is the top one; beyond the code all is light.
  [[nodiscard]] bool is_dark(int row, int column) const {
    if (row < 0 || column < 0 || row >= side || column >= side) return false;
    return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(side) + static_cast<std::size_t>(column)];
  }
  /// With the light about it, modules.
  [[nodiscard]] int whole_side() const { return side + 2 * quiet_modules; }
};

/// As small as the text allows, at error correction M: 15 % of it may be lost. Faults: no text, one that is too long.
Result<QrCode> qr_code(std::string_view text);

/// What is dark (or, `light`, all else of the whole square), modules that touch along a side welded into one outline. The
/// whole square's lower left corner is the origin; `module`: mm.
Polygons outlines_of(const QrCode& code, double module, bool light = false);

}  // namespace ordinatio::inline codes
