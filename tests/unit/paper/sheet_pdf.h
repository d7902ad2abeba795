// One sheet's page, with lettering of its own.
#pragma once

#include "paper/lettering.h"
#include "paper/paper.h"

inline ordinatio::Result<std::string> write_sheet_pdf(const ordinatio::Sheet& sheet,
                                                      const ordinatio::FontLibrary& fonts) {
  auto lettering = ordinatio::Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  return ordinatio::write_sheet_pdf(sheet, *lettering);
}
