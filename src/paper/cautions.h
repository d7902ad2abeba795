// In: what a paper is for.
// Out: the cautions that it bears: all of them stand here, and every one leaves the last word to the manual of the machine or
// tool, to local codes and to licensed practice.
// Never: says how a machine is set. Of this folder alone.
#pragma once

#include <string>
#include <vector>

namespace ordinatio::inline paper {

using Cautions = std::vector<std::string>;

/// Of a bed with pieces on it.
Cautions engraving_cautions();
/// Of a board that is cut to hold pieces.
Cautions board_cautions();
/// Of a pane that is sawn, or scored and broken by hand where the kerf is nothing.
Cautions cutting_cautions(double kerf);
/// Of pieces that are measured and sorted.
Cautions handling_cautions();

/// One after another, as a column is set.
std::string in_running_text(const Cautions& cautions);

/// mm per em: capitals are then 3.2 mm tall in the plain face, and in none of those that may stand in for it under 3 mm, be
/// an A4 page made a little smaller by a printer's margins. What is smaller is not read at arm's length.
inline constexpr double caution_size = 4.6;
inline constexpr double caution_leading = 1.25;  // em

}  // namespace ordinatio::inline paper
