// Whether a measured piece goes with a design, and into a pocket of its beds. Of this folder alone.
#pragma once

#include "blanks/blanks.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// The piece as the design means it, as it was measured or a quarter turn from that, whatever pockets there are; nothing
/// where it is of another material or meant for something else.
std::optional<Blank> as_meant(const BlankRow& row, const Design& design, bool is_named);
/// The piece as the design can take it on one of its beds, as it was measured or a quarter turn from that; nothing where
/// it cannot. is_named: a person chose the piece, so that it need not be of about the design's size.
std::optional<Blank> as_wanted(const BlankRow& row, const Station& station, bool is_named = false);
/// Why a piece that was named is none for the design: its material, or the side that fails and by how much; else what the
/// design says when it is laid on it.
Fault why_not(const BlankRow& row, const Station& station);
/// The Fault for a piece that only the pockets are too small for, with the design as it comes out on it.
Fault too_large(const BlankRow& row, const Station& station, const LaidDesign& laid);

}  // namespace ordinatio::inline shop
