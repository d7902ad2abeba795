// In: how thick pieces are, and by how much those of one sheet may differ.
// Out: lots of pieces that may share sheets.
// Never: knows what lies on a piece, or changes the order within a lot.
#pragma once

#include <span>
#include <vector>

namespace ordinatio::inline bed {

/// The lot of each piece, from 0. No two of a lot differ by more than `spread`; cut into sheets of `pockets`, the lots make
/// as few sheets as can be. Greedy from the thinnest: a sheet takes the next pieces until it is full or the next is too
/// thick, which is fewest, for whatever the best way puts on its first sheet may be exchanged for these; neighbouring
/// sheets that are together within the spread are one lot, so that pieces keep the order in which they came as far as can
/// be. Each lot leaves at most one sheet that is not full.
std::vector<std::size_t> thickness_lots(std::span<const double> thicknesses, double spread, std::size_t pockets);

}  // namespace ordinatio::inline bed
