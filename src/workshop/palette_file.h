// [colours] of shop.toml. Of this folder alone.
#pragma once

#include "bed/palette.h"
#include "design/toml_table.h"

namespace ordinatio::inline workshop {

/// The workshop's palette. Faults: what is no colour, two operations of one colour, an operation that runs in grey, a guide
/// that is none, and in [colours.dxf] an index that is drawn like another operation's, or in another's hue.
Palette read_palette(TomlTable table);

}  // namespace ordinatio::inline workshop
