// In: the cost of each pair of row and column. Out: the matching of all rows whose cost is least. Of the assignment.
// Of this folder alone.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "bed/matching.h"

namespace ordinatio::inline bed {

/// The matching of all rows, each to a column of its own, that costs least; of those the one with the least sum of
/// (column · (rows − row)): earlier rows have earlier columns. Costs are whole numbers, so all is exact.
/// Shortest augmenting paths with potentials (Jonker and Volgenant, "A shortest augmenting path algorithm for dense and
/// sparse linear assignment problems", 1987), O(n²) a path. When a cost changes, potentials are kept and only the row
/// that it concerns is matched anew. A path looks at the few columns that were nearest to a row, and at all of them only
/// when it comes to lie beyond those.
class LeastCost {
 public:
  LeastCost(std::size_t rows, std::size_t columns);  // rows ≤ columns ≤ most_to_assign; no pair may be yet
  /// cost: 0 to 2^53; nothing: the pair may not be.
  void set_cost(std::size_t row, std::size_t column, std::optional<std::int64_t> cost);
  /// Matches the rows that are free. Throws std::logic_error when not all can be matched.
  void settle();
  [[nodiscard]] std::size_t column_of(std::size_t row) const { return matching_.column_of[row]; }

 private:
  /// 128 bits hold any sum there can be: costs under 2^53, times 2^32 to leave room for the order of rows and columns,
  /// along paths of at most 2^12 pairs, after at most 2^22 changes.
  using Cost = __int128;
  static constexpr Cost never = Cost{1} << 124, out_of_reach = never / 2;

  /// The columns nearest to a row when it was last looked at, by cost less potential. Potentials of columns only fall, so
  /// no other column ever comes nearer than `beyond`, unless its cost falls.
  struct Near {
    std::vector<std::pair<Cost, std::size_t>> columns;  // with their costs
    Cost beyond = 0;
    std::size_t used = 0;  // since the row was looked at
  };
  /// A row of the path whose other columns are no nearer than this.
  struct Horizon {
    Cost distance;
    std::size_t row;
  };

  void match(std::size_t start);
  void reach(std::size_t row, Cost distance);
  void reach_column(std::size_t column, std::size_t row, Cost through);
  void reach_beyond(std::size_t column);
  bool look_farther(Cost distance);
  void look_around(std::size_t row);
  [[nodiscard]] std::size_t nearest() const;
  void raise_potentials(std::size_t start, Cost distance);
  void forget_path();

  std::size_t rows_, columns_;
  Cost order_room_;          // more than any sum of places in order
  std::vector<Cost> costs_;  // row by row, the row of columns left over last: it costs nothing
  Matching matching_;
  // No pair costs less than the potentials of its row and column together, a matched one as much.
  std::vector<Cost> row_potential_, column_potential_;
  std::vector<Near> near_;
  // Of the path that is sought:
  std::vector<Cost> distance_, so_far_;                  // to a column; to a row, less its potential
  std::vector<std::size_t> reached_from_, open_, done_;  // columns are reached, then done with
  std::vector<Horizon> horizons_;
  std::vector<std::pair<Cost, std::size_t>> around_;
};

}  // namespace ordinatio::inline bed
