// In: a sheet as it is drawn. Out: the same sheet in the order of work. Never: moves ink, or what an item's hash tells.
#pragma once

#include "bed/bed.h"

namespace ordinatio::inline machine {

/// In every operation the pieces come one by one, in one order that leaves little way between them and begins with the first:
/// what goes wrong then spoils one. What is followed in a piece (scored, cut, marked) is ordered by order_contours; what is filled
/// stays as it is drawn, since the machine scans it. Registration marks come behind the pieces.
/// The sheet as it is drawn knows nothing of this: a hash is of shapes, and stays what was approved.
void order_work(Sheet& sheet);

}  // namespace ordinatio::inline machine
