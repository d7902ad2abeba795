#include <cmath>

#include "check/check.h"
#include "check/difference.h"
#include "check/ink.h"
#include "check/pdf_content.h"

namespace ordinatio::inline check {
namespace {

/// The area of what a page fills, however it is coloured; letters of running text are no paths and do not count.
double filled_area(const PdfPage& page) {
  double area = 0;
  for (const PaintedPath& painted : page.painted) {
    if (painted.filled) area += std::abs(measure(painted.path, Measure::area).area);
  }
  return area;
}

double engraved_area(const Artwork& artwork) {
  double area = 0;
  for (const Layer& layer : artwork.layers) {
    if (is_filled(layer.operation)) area += area_of(layer.path);
  }
  return area;
}

Fault proofs_fault(const std::string& what, const std::string& why) {
  return {what, "proofs", why, "Do not send these proofs; report it together with the orders", Fault::Cause::machine};
}

}  // namespace

MaybeFault check_proofs(std::string_view bytes, const std::vector<ProvedArtwork>& artworks) {
  try {
    std::vector<double> found, wanted;
    for (const PdfPage& page : read_pdf_pages(bytes)) {
      if (const double area = filled_area(page); area > 0) found.push_back(area);
    }
    for (const auto& [artwork, reduction] : artworks) {
      if (const double area = engraved_area(*artwork); area > 0) wanted.push_back(area / (reduction * reduction));
    }
    if (found.size() != wanted.size()) {
      return proofs_fault("read back, the file does not show every artwork once",
                          std::to_string(found.size()) + " pages bear ink, not " + std::to_string(wanted.size()));
    }
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (std::abs(found[i] - wanted[i]) <= area_share * wanted[i]) continue;
      return proofs_fault("read back, artwork " + std::to_string(i + 1) + " is not what will be engraved",
                          "its ink covers another area");
    }
    return std::nullopt;
  } catch (const Difference& difference) {
    return proofs_fault("read back, the file is not whole", difference.what);
  }
}

}  // namespace ordinatio::inline check
