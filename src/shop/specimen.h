#pragma once

#include "base/account.h"
#include "geometry/geometry.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct SpecimenOptions {
  std::vector<std::string> faces;   // empty: the catalogue's faces for engraving, then the workshop's own files
  std::optional<std::string> text;  // absent: the shop's sample
  std::optional<double> spot;       // mm across; absent: the machine's
  std::filesystem::path out;
};
Result<Account> run_specimen(const Shop& shop, const SpecimenOptions& options, const Progress& progress = {});

/// A face, as it writes the sample's first line.
struct FaceSample {
  CatalogueFace face;
  Path ink;              // mm, capitals `sample_capitals` tall; y up from the baseline
  MaybeFault cannot;     // why there is no ink
  double least_cap = 0;  // mm: smaller capitals have strokes or gaps that the beam cannot draw; 0: not known
};
inline constexpr double sample_capitals = 10;  // mm
/// Those of run_specimen, to be looked at. Faults: the sample cannot be engraved; the spot is none.
Result<std::vector<FaceSample>> show_faces(const Shop& shop, const SpecimenOptions& options);

}  // namespace ordinatio::inline shop
