// A design's hatch, as its table tells it and as it is laid.
#pragma once

#include "design/layers.h"
#include "design/toml_table.h"

namespace ordinatio::inline design {

// ---- hatch_table.cpp ----
/// The table `[hatch]` of a design or a workshop. Remembers Faults in the file.
void read_hatch(TomlTable table, std::optional<HatchPart>& hatch);

/// What a design does not say of its hatch: by the workshop's, and the spot by that of its machine.
void hatch_by(Design& design, const std::optional<HatchPart>& shops, double machine_spot);

/// Lines in place of all that would be filled. Faults: far too many.
MaybeFault hatch_engraving(LayerStack& layers, const HatchPart& hatch);

}  // namespace ordinatio::inline design
