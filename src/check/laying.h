// A sheet that was laid to what was measured: whether that is right. Of this folder alone.
#pragma once

#include "check/difference.h"

namespace ordinatio::inline check {

/// From the bed to where the sheet was drawn. Throws a Difference where the correction is no correction, or its residuals
/// are not those of its transform.
Transform drawn_from(const Sheet& sheet);

/// Whether the item lies where its corners were measured, and not in a pocket. Throws a Difference where it should and
/// does not.
bool is_laid_by_hand(const Sheet& sheet, const SheetItem& item);

/// Throws a Difference unless each mark stands where the frame has it, moved by the correction, and the scale bar is
/// 100 mm long, however the sheet was laid.
void require_furniture(const Sheet& sheet);

inline constexpr double same_place = 1e-6;  // mm: two ways of computing one place; six orders below what is written
bool in_one_place(Point a, Point b);

}  // namespace ordinatio::inline check
