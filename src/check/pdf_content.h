// Of this folder alone.
#pragma once

#include <string_view>
#include <vector>

#include "bed/bed.h"
#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// A path that a PDF page paints in one plain colour; in mm, y up, origin at the page's lower left.
struct PaintedPath {
  Path path;
  bool filled = false;  // else stroked
  Colour colour;
};

/// The page of a PDF file as it is painted.
struct PdfPage {
  double width = 0, height = 0;  // mm
  std::vector<PaintedPath> painted;
};

/// The pages of a PDF, forms included; text, pictures, and what has no plain colour are left out. Throws a Difference when
/// the file is damaged, or a page is turned or scaled.
std::vector<PdfPage> read_pdf_pages(std::string_view bytes);

}  // namespace ordinatio::inline check
