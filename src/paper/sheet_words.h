// What a sheet's picture says in words. Of this folder alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bed/bed.h"
#include "paper/cautions.h"

namespace ordinatio::inline paper {

/// A board for pieces has none on it, and bears its own numbers.
inline bool is_board(const Sheet& sheet) { return sheet.items.empty() && !sheet.frame.pockets.empty(); }

std::string heading_of(const Sheet& sheet);
/// "pocket 3 · 1042-2/S · 1a2b3c4d"
std::string words_for(const Pocket& pocket, const Sheet& sheet);
/// Who ordered what lies in the pocket, cut where it is long; empty: not known.
std::string customer_in(const Pocket& pocket, const Sheet& sheet);
/// "Colours: engrave #009E73, DXF 3 · score …": by which a machine is set, whichever file it takes.
std::string colours_of(const Palette& palette);
Cautions cautions_of(const Sheet& sheet);

}  // namespace ordinatio::inline paper
