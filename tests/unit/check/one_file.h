// One file held against its sheet, without others.
#pragma once

#include "check/check.h"

namespace ordinatio {

inline MaybeFault check_svg(std::string_view bytes, const Sheet& sheet) { return check_svg(bytes, SheetModel(sheet)); }
inline MaybeFault check_dxf(std::string_view bytes, const Sheet& sheet, double chord_tolerance = curve_tolerance) {
  return check_dxf(bytes, SheetModel(sheet), chord_tolerance);
}
inline MaybeFault check_pdf(std::string_view bytes, const Sheet& sheet) { return check_pdf(bytes, SheetModel(sheet)); }

}  // namespace ordinatio
