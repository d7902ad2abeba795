// One sheet's page, with lettering of its own.
#pragma once

#include "paper/lettering.h"
#include "paper/paper.h"

namespace ordinatio {

inline Result<std::string> write_sheet_pdf(const Sheet& sheet, const FontLibrary& fonts,
                                           const std::vector<std::string>& remarks = {}) {
  auto lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  return write_sheet_pdf(sheet, *lettering, remarks);
}

}  // namespace ordinatio
