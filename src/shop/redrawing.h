// A manifest's sheet drawn again to be laid to its marks. Of this folder alone.
#pragma once

#include "manifest/manifest.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// Faults: there are no marks.
MaybeFault check_marks(const Manifest& manifest);
/// Where the manifest is not that of a corrected sheet, everything must lie again where it lay.
MaybeFault check_places(const Manifest& manifest, const Sheet& sheet);
/// All of the manifest's sheet as it was drawn.
Result<Sheet> redrawn(const Manifest& manifest, Workroom& workroom, const std::string& name);

}  // namespace ordinatio::inline shop
