// In: items and places, what size an item can have on a place at most, and a way to ask for exact sizes in batches.
// Out: which item is set on which place, optimal, and how much asking it took.
// Never: knows what an item, a place or a size is; asks for a size twice, or for one that cannot matter.
#pragma once

#include <optional>
#include <vector>

#include "bed/pair_sizes.h"

namespace ordinatio::inline bed {

struct Assignment {
  std::vector<std::optional<std::size_t>> place_of;  // of each item
  std::vector<double> size_of;                       // of each item; 0 where it has no place
  double smallest = 0, total = 0;                    // of the items that have a place
  std::size_t asked = 0;                             // sizes asked for, beside those known before
};

/// The best assignment of items to places. What is best, in this order:
/// 1. As many items as possible have a place; where not all can, the earlier come first.
/// 2. With an order of sparing: the places used are the earliest in that order.
///    (Sets of items, or of places, that can be matched are the independent sets of a transversal matroid: Edmonds and
///    Fulkerson, "Transversals and matroid partition", 1965. So taking one after the other, wherever it can be matched
///    beside those taken before, gives both the most and the earliest.)
/// 3. The smallest size is as large as can be; sizes are compared exactly.
/// 4. The total is as large as can be. It is added up in grains, the last bit of the largest bound (some 1e-16 of it):
///    whole multiples of one are exact, and of other sizes, totals less than a grain an item apart may count as the same.
/// 5. Earlier items have earlier places: what is alike is taken as it comes. Of R items that have a place, and the places
///    that may be used (all, or those that sparing left), both numbered in their order from 0, the sum of
///    place · (R − item) is least.
/// Each round takes the best assignment by what is known, a bound standing for a size that is not, and asks for the
/// sizes in it that are not known. When all are known it is the best: any other is worth no more than its bounds say.
/// Cost: O(n³) at first, then O(n²) at most for an item whose size fell; memory 32 to 64 bytes a pair.
/// Throws std::logic_error when sizes contradict their bounds or are not finite: bugs of the caller.
Assignment assign(PairSizes& sizes);

/// Items in order, each on the first place in order that is free and that it can be set on: what assign is measured by.
Assignment first_come(PairSizes& sizes);

}  // namespace ordinatio::inline bed
