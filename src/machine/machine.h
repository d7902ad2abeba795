// In: a sheet, and how the workshop's machine moves.
// Out: how long the machine takes for it, by operation and item, and which way of scanning it is the shortest; the order of
// the work (sheet_order.h).
// Never: says how a machine is to be set; changes what is drawn; reads a clock.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/base.h"
#include "bed/bed.h"
#include "design/design.h"

namespace ordinatio::inline machine {

/// How a machine moves, as the workshop measured it or its maker says. It is taken for one body that a constant force speeds
/// up and slows down: what that leaves out is in `factor`.
struct Motion {
  double scan_speed = 0;                                  // mm/s, while it fills; 0: it fills nothing
  double score_speed = 0, cut_speed = 0, mark_speed = 0;  // mm/s, while it follows a path; 0: not told
  double travel_speed = 0;                                // mm/s, from one to the next
  double acceleration = 0;                                // mm/s²
  double scan_pitch = 0.1;                                // mm, from one scan line to the next
  /// mm before a scan line's ink, in which the carriage comes to its speed, and after it; absent: as far as it must, v²/2a.
  std::optional<double> run_up;
  bool both_ways = true;  // false: it comes back without engraving
  double settle = 0;      // s, at each turn
  double corner = 0.05;   // mm, by which it may round a path's corners; half of what the beam marks
  double factor = 1;      // by which a timed bed took longer than all this says
};

/// In which order engraved pieces are filled.
enum class Grouping {
  pieces,  // one after the other
  rows,    // pieces that lie beside one another in one go, as a row of pockets does
  bed,     // all in one go
};
inline constexpr std::array all_groupings{Grouping::pieces, Grouping::rows, Grouping::bed};
/// "piece by piece", "row by row", "the whole bed in one go"
std::string_view name_of(Grouping grouping);

struct OperationTime {
  Operation operation;
  double seconds = 0;
};
/// What cannot be told of a sheet.
struct Untold {
  Operation operation;
  std::string why;
};
struct ItemTime {
  std::string item;
  double seconds = 0;
};
struct SheetTime {
  double seconds = 0;                     // all operations, in the best grouping
  std::vector<OperationTime> operations;  // in their order, those that the sheet has and that can be told
  std::vector<Untold> untold;             // those that cannot: they are in no sum
  /// Engraving in each grouping, in the order of all_groupings; 0 where nothing is engraved.
  std::array<double, all_groupings.size()> groupings{};
  Grouping best = Grouping::pieces;
  std::size_t scan_lines = 0;  // in the best grouping
  /// Each item's share: what its paths take, and of the engraving as much as it would take alone. What belongs to no item,
  /// such as marks, is in the sheet's time alone.
  std::vector<ItemTime> items;
};
/// The guide is never run. The way to the sheet's first path, from wherever the machine rests, is in no time.
SheetTime time_of(const Sheet& sheet, const Motion& motion);

/// By which a motion's factor is to be multiplied so that it comes nearest to what beds took.
struct TimedBed {
  double told = 0, took = 0;  // s
};
struct Fit {
  double factor = 1;
  double error = 0;  // share: the root mean square of what is left
};
/// The least squares of took − factor · told: Σ told·took / Σ told². Of one bed nothing is left.
Fit fit_factor(const std::vector<TimedBed>& beds);

}  // namespace ordinatio::inline machine
