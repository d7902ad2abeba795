// In: bytes as they stand in a written file, and the sheet they were written from.
// Out: nothing, or the Fault that says how the file differs from the sheet.
// Never: uses the writers; everything is parsed anew.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "bed/machine_setting.h"

namespace ordinatio::inline check {

/// An item's ink area in a file may differ by 0.1 % from the model's.
inline constexpr double area_share = 1e-3;
/// How far ink may seem to leave its clear area, mm: chord tolerance and rounding.
inline constexpr double place_slack = 0.012;

/// What all files of a sheet are held against, worked out once for them. The sheet must outlive it.
class SheetModel {
 public:
  explicit SheetModel(const Sheet& sheet);
  ~SheetModel();
  [[nodiscard]] const Sheet& sheet() const { return sheet_; }

  struct Known;
  [[nodiscard]] const Known& known() const { return *known_; }

 private:
  const Sheet& sheet_;
  std::unique_ptr<const Known> known_;
};

// ---- svg.cpp ----
/// True size, operations, items, ink area of each item and operation, all ink inside its clear area and on the bed, and no
/// ink of an item over its other ink: even-odd and non-zero filling agree.
MaybeFault check_svg(std::string_view bytes, const SheetModel& model);

// ---- dxf.cpp ----
/// chord_tolerance: that of the DxfOptions the file was written with, mm. Chords lose area, small letters more than
/// 0.1 %: an area between the curve's and that of the coarsest chords allowed is right.
MaybeFault check_dxf(std::string_view bytes, const SheetModel& model, double chord_tolerance = curve_tolerance);

// ---- pdf.cpp ----
MaybeFault check_pdf(std::string_view bytes, const SheetModel& model);

// ---- proofs.cpp ----
/// An artwork on its page, so many times smaller.
struct ProvedArtwork {
  const Artwork* artwork = nullptr;
  double reduction = 1;
};
/// Proofs: the engraved ink of each artwork at its scale, in their order, a page or more each; a page without an artwork
/// (held, or more text) fills nothing. lines: the colour that what is scored or marked is drawn in, and nothing else.
MaybeFault check_proofs(std::string_view bytes, const std::vector<ProvedArtwork>& artworks, Colour lines);

// ---- specimen.cpp ----
/// A specimen or a contact sheet: pages of one size (mm; A4, ISO 216), as many as `ink` has, and on each the area of ink that
/// was meant, mm².
MaybeFault check_specimen(std::string_view bytes, const std::vector<double>& ink, double width = 210,
                          double height = 297);

// ---- loading.cpp ----
/// A loading sheet: pages of one size, mm, and on the first every piece's outline, each at the same scale and in its place on
/// the bed.
MaybeFault check_loading(std::string_view bytes, const Sheet& sheet, double width, double height);

// ---- manifest_check.cpp ----
MaybeFault check_manifest(std::string_view bytes, const Sheet& sheet);

// ---- blanks.cpp ----
/// A drawing of measured pieces: every one in its place in the row, under its id, at true size, with its area.
MaybeFault check_blanks_svg(std::string_view bytes, const std::vector<const Blank*>& blanks);

}  // namespace ordinatio::inline check
