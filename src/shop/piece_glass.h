// What the words of a design, and of the rows of pieces that lie on a bed, say of glass. Of this folder alone.
#pragma once

#include "blanks/blanks.h"
#include "blanks/glass.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// Why no piece of a design is engraved, by its own words. A design whose material is glass is not asked which: nominal pieces
/// have no row to say it in, and measured ones say it in theirs.
MaybeFault judge_design(const Design& design);

/// The pieces whose rows say now what they did not say when they were laid, by their ids. Empty where no pieces are
/// measured, or their file cannot be read.
std::map<std::string, Fault> pieces_not_engraved(Workroom& workroom);
/// Refuses a piece that lies in a pocket and is one of these.
MaybeFault check_lying(const std::map<std::string, Fault>& not_engraved, const std::string& piece,
                       const std::string& item);

}  // namespace ordinatio::inline shop
