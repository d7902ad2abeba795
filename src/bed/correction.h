// In: a sheet as it is drawn, or one item, and what was measured on the machine.
// Out: the sheet with everything where the machine is to engrave it.
// Never: moves the scale bar, or lets a part leave the bed.
#pragma once

#include "bed/bed.h"

namespace ordinatio::inline bed {

/// The sheet as it is drawn, from a frame that has marks, laid to marks that were measured. `numbers`: of the marks,
/// from 1; `measured`: their places, one for one. Faults: those of register_points, no such mark, a mark given twice,
/// and a part that would leave the bed.
MaybeFault correct(Sheet& sheet, const std::vector<int>& numbers, const std::vector<Point>& measured,
                   Registration::Model model);

/// A sheet of one item on a blank that lies where its corners were measured: lower left, lower right and, if there are
/// four, upper right, upper left, of the box around the blank. No pocket, no marks: the bed has no board. Faults: as
/// above.
Result<Sheet> lay_by_hand(const BedPlan& plan, SheetItem item, const std::vector<Point>& corners,
                          const std::string& name);

// Beyond these a machine or a board is not a little off: marks were mistaken for others. Common practice, no source.
inline constexpr double suspicious_turn = 10;     // degrees
inline constexpr double suspicious_scale = 0.02;  // of 1, in any direction

}  // namespace ordinatio::inline bed
