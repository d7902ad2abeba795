// In: the cost of each pair of row and column. Out: the matching of all rows whose cost is least. Of the assignment.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "bed/matching.h"

namespace ordinatio {

/// The matching of all rows, each to a column of its own, that costs least; of those the one with the least sum of
/// (column · (rows − row)): earlier rows have earlier columns. Costs are whole numbers, so all is exact.
/// Shortest augmenting paths with potentials (Jonker and Volgenant, "A shortest augmenting path algorithm for dense and
/// sparse linear assignment problems", 1987), O(n²) a path. When a cost changes, potentials are kept and only the row
/// that it concerns is matched anew.
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
  static constexpr Cost never = Cost{1} << 124;

  void match(std::size_t row);
  void reach(std::size_t row, Cost distance);
  void reach_beyond(std::size_t column);
  [[nodiscard]] std::size_t nearest() const;
  void raise_potentials(std::size_t row, Cost distance);

  std::size_t rows_, columns_;
  Cost order_room_;          // more than any sum of places in order
  std::vector<Cost> costs_;  // row by row, the row of columns left over last: it costs nothing
  Matching matching_;
  std::vector<Cost> row_potential_,
      column_potential_;  // no pair costs less than the sum of its two, a matched one as much
  // Of the path that is sought:
  std::vector<Cost> distance_;
  std::vector<std::size_t> reached_from_, done_columns_;
  std::vector<bool> done_;
};

}  // namespace ordinatio
