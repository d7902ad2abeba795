// What the words of rows and designs say of glass, brought before the one judge (glass.h). Of this folder alone.
#pragma once

#include "shop/blanks.h"
#include "shop/glass.h"
#include "shop/workroom.h"

namespace ordinatio {

/// Why the piece or pane of a row is neither cut nor engraved, by the words of all its cells. headers: as they stand in the
/// file; known: the columns that the program reads. any_case: a header in capitals is known, too.
MaybeFault judge_row(const CsvRecord& record, const std::vector<std::string>& headers,
                     std::span<const std::string_view> known, bool any_case, const std::string& file);

/// The same of all pieces of a design, by its own words. A design whose material is glass is not asked which: nominal pieces
/// have no row to say it in, and measured ones say it in theirs.
MaybeFault judge_design(const Design& design);

/// The pieces whose rows say now what they did not say when they were laid, by their ids. Empty where no pieces are
/// measured, or their file cannot be read.
std::map<std::string, Fault> pieces_not_engraved(Workroom& workroom);
/// Refuses a piece that lies in a pocket and is one of these.
MaybeFault check_lying(const std::map<std::string, Fault>& not_engraved, const std::string& piece,
                       const std::string& item);

}  // namespace ordinatio
