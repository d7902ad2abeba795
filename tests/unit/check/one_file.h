// One file held against its sheet, without others.
#pragma once

#include "check/check.h"

inline ordinatio::MaybeFault check_svg(std::string_view bytes, const ordinatio::Sheet& sheet) {
  return ordinatio::check_svg(bytes, ordinatio::SheetModel(sheet));
}
inline ordinatio::MaybeFault check_dxf(std::string_view bytes, const ordinatio::Sheet& sheet,
                                       double chord_tolerance = ordinatio::curve_tolerance) {
  return ordinatio::check_dxf(bytes, ordinatio::SheetModel(sheet), chord_tolerance);
}
inline ordinatio::MaybeFault check_pdf(std::string_view bytes, const ordinatio::Sheet& sheet) {
  return ordinatio::check_pdf(bytes, ordinatio::SheetModel(sheet));
}
