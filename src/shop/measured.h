// Places measured on the machine, as a person gives them, and what came of them, in words. Of this folder alone.
#pragma once

#include "base/account.h"
#include "bed/correction.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// Places as they were given: "x,y" each, mm; a number before it, "2:x,y", says which. Without numbers they come in their
/// order, from 1.
struct MeasuredPlaces {
  std::vector<int> numbers;
  std::vector<Point> places;
};
/// `all`: how many there must be where none is numbered; 0: any. Faults: what is no place, some numbered and some not.
Result<MeasuredPlaces> read_places(const std::vector<std::string>& words, const std::string& option, std::size_t all);

/// "592,8": mm.
std::string place_text(Point place);

/// A Fault where a residual is over the limit, with all of them. `thing`: "mark" or "corner".
MaybeFault over_limit(const Correction& correction, double limit, const std::string& option);
/// What was found, for the account: how far everything moves, what is left at each place, what cannot show; and warnings
/// where a turn or a scale is more than a machine or a board is off by.
void account_for(Account& account, const Correction& correction, const Machine& bed);

}  // namespace ordinatio::inline shop
