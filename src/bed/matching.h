// Rows matched to columns, and how a path through them is turned over. Of the assignment. Of this folder alone.
#pragma once

#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

namespace ordinatio::inline bed {

struct Matching {
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> column_of, row_of;  // none: free

  Matching(std::size_t rows, std::size_t columns) : column_of(rows, none), row_of(columns, none) {}

  [[nodiscard]] bool is_free(std::size_t column) const { return row_of[column] == none; }
  void release(std::size_t row) {
    if (column_of[row] != none) row_of[std::exchange(column_of[row], none)] = none;
  }
  /// Turns over the path from a free row to a free column: each row on it takes the column it leads to and leaves its
  /// own to the row before. reached_from: the row that each column of the path was reached from.
  void turn_over(std::size_t column, const std::vector<std::size_t>& reached_from) {
    while (column != none) {
      const std::size_t row = reached_from[column];
      row_of[column] = row;
      column = std::exchange(column_of[row], column);
    }
  }
};

/// The rows, in their order, that can be matched to columns together with those before them: the most there can be, and
/// of those the earliest, since sets of rows that can be matched are a transversal matroid.
/// Breadth-first augmenting paths, O(rows² · columns) at worst.
std::vector<std::size_t> first_matched(std::size_t rows, std::size_t columns,
                                       const std::function<bool(std::size_t row, std::size_t column)>& may);

}  // namespace ordinatio::inline bed
