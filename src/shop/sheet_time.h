// How long sheets take on the workshop's machines, as papers, manifests and accounts say it.
#pragma once

#include "base/account.h"
#include "machine/machine.h"
#include "workshop/workshop.h"
#include "write/write.h"

namespace ordinatio::inline shop {

/// Nothing where no speed is told of the machine that the sheet was made for.
std::optional<SheetTime> sheet_time(const Shop& shop, const Sheet& sheet);

/// "estimated time 1 h 35 min: engrave 1 h 33 min, row by row; mark 2 min"
std::string time_words(const SheetTime& time);
/// The same for papers, "Estimated time 1 h 35 min: engrave…". None where nothing is known.
std::vector<std::string> time_remarks(const std::optional<SheetTime>& time);
/// Seconds: "time", then by operation; and each item's.
WorkedOut time_figures(const std::optional<SheetTime>& time);

struct NamedTime {
  std::string sheet;
  std::optional<SheetTime> time;
};
/// A line for each of a few sheets, one for many, and what is in no sum.
void tell_times(Account& account, const std::vector<NamedTime>& times);
/// "cut is in no sum: no speed is told for it"
std::vector<std::string> untold_words(const SheetTime& time);

}  // namespace ordinatio::inline shop
