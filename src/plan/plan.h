// In: how many plaques are to be made, the stations that they go through, the first day and the days off.
// Out: what each station has to do and needs, which of them holds everything up, and when all is done, with its spread.
// Never: reads a clock, a ledger or a file; knows what a station does.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "base/base.h"
#include "plan/day.h"

namespace ordinatio::inline plan {

/// What is used up at a station: so many of it for so many pieces that come in.
struct Consumable {
  std::string name;
  double count = 1, pieces = 1;
};

/// A place in the workshop where every piece is worked on, by hours or by loads.
struct WorkStation {
  std::string name;
  double per_hour = 0;    // pieces that one person, or one machine, does in an hour; 0: it goes by loads
  int load = 0;           // pieces that go in together
  double load_hours = 0;  // from one load to the next; a load that is not done when the day ends goes on the next day
  int people = 1;         // or machines, kilns: how many work side by side
  double hours = 8;       // a day
  std::array<bool, 7> days{true, true, true, true, true, false, false};  // from Monday on
  double breakage = 0;                                                   // share of what comes in that breaks
  std::vector<Consumable> consumables;
};

struct DaysOff {
  Day first, last;  // both are off
};

struct PlanTask {
  std::vector<WorkStation> stations;  // in the order in which a piece comes through them
  int plaques = 0;                    // that are to be whole in the end
  Day from;                           // the first day of work
  std::vector<DaysOff> off;           // the whole workshop is closed
  std::uint64_t seed = 1;             // of the lots by which pieces break
};

/// What is so in one run of ten at most, in half of them, in nine of ten.
template <class T>
struct Spread {
  T low, middle, high;
};

struct Need {
  std::string name;
  int count = 0;  // to buy: whole ones
};
struct StationPlan {
  int pieces = 0;    // that come in, breakage there and later allowed for
  double hours = 0;  // of work, its people working side by side
  int days = 0;      // of its own, if it never waits
  Day first, last;   // as all goes on average
  std::vector<Need> needs;
};
struct Plan {
  int prepared = 0;    // pieces to prepare: ⌈plaques / ∏(1 − breakage)⌉
  Spread<int> pieces;  // that are used until all plaques are whole
  std::vector<StationPlan> stations;
  std::size_t slowest = 0;  // the station that holds everything up: it needs the most weeks
  Spread<Day> done;         // the day on which the last plaque is done
  int runs = 0;             // that were drawn by lot
};

// ---- plan.cpp ----
inline constexpr int most_plaques = 100'000;       // more is a slip of the pen
inline constexpr int most_prepared = 500'000;      // pieces, where much breaks
inline constexpr int most_stations = 40;           // they stand on a page or two
inline constexpr int longest_plan = 10 * 365 + 3;  // days; what takes longer is no plan

/// What a station finishes on a day goes on to the next station on the day after. Pieces break by lot, and those that are then
/// missing are begun anew on the next day; runs: up to 2,000, fewer where one is long.
/// Faults: no stations, no plaques, more of either than the limits, a station that can never be done.
Result<Plan> plan_work(const PlanTask& task);

}  // namespace ordinatio::inline plan
