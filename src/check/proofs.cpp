#include <cmath>

#include "check/check.h"
#include "check/difference.h"
#include "check/ink.h"
#include "check/pdf_content.h"

namespace ordinatio::inline check {
namespace {

constexpr double length_share = 1e-3;  // of a line's length: places on paper are whole tenths of a micrometre

/// What is filled, and how far the lines run that are followed.
struct Shown {
  double area = 0, length = 0;  // mm², mm
  [[nodiscard]] bool any() const { return area > 0 || length > 0; }
};

/// What a page fills counts however it is coloured, what it strokes where it is the lines' colour; letters of running text are
/// no paths.
Shown shown_on(const PdfPage& page, Colour lines) {
  Shown shown;
  for (const PaintedPath& painted : page.painted) {
    if (painted.filled) shown.area += std::abs(measure(painted.path, Measure::area).area);
    if (!painted.filled && painted.colour == lines)
      shown.length += measure(painted.path, Measure::area_and_length).length;
  }
  return shown;
}

Shown shown_of(const Artwork& artwork, double reduction) {
  Shown shown;
  for (const Layer& layer : artwork.layers) {
    const bool is_followed = layer.operation == Operation::score || layer.operation == Operation::mark;
    if (is_filled(layer.operation)) shown.area += area_of(layer.path) / (reduction * reduction);
    if (is_followed) shown.length += measure(layer.path, Measure::area_and_length).length / reduction;
  }
  return shown;
}

Fault proofs_fault(const std::string& what, const std::string& why) {
  return {what, "proofs", why, "Do not send these proofs; report it together with the orders", Fault::Cause::machine};
}

}  // namespace

MaybeFault check_proofs(std::string_view bytes, const std::vector<ProvedArtwork>& artworks, Colour lines) {
  try {
    std::vector<Shown> found, wanted;
    for (const PdfPage& page : read_pdf_pages(bytes)) {
      if (const Shown shown = shown_on(page, lines); shown.any()) found.push_back(shown);
    }
    for (const auto& [artwork, reduction] : artworks) {
      if (const Shown shown = shown_of(*artwork, reduction); shown.any()) wanted.push_back(shown);
    }
    if (found.size() != wanted.size()) {
      return proofs_fault("read back, the file does not show every artwork once",
                          std::to_string(found.size()) + " pages bear ink, not " + std::to_string(wanted.size()));
    }
    for (std::size_t i = 0; i < found.size(); ++i) {
      const bool same_area = std::abs(found[i].area - wanted[i].area) <= area_share * wanted[i].area;
      const bool same_lines = std::abs(found[i].length - wanted[i].length) <= length_share * wanted[i].length;
      if (same_area && same_lines) continue;
      return proofs_fault("read back, artwork " + std::to_string(i + 1) + " is not what will be engraved",
                          same_area ? "its lines run another way" : "its ink covers another area");
    }
    return std::nullopt;
  } catch (const Difference& difference) {
    return proofs_fault("read back, the file is not whole", difference.what);
  }
}

}  // namespace ordinatio::inline check
