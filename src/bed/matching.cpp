#include "bed/matching.h"

#include <numeric>

namespace ordinatio::inline bed {
namespace {

using MayMatch = std::function<bool(std::size_t row, std::size_t column)>;

/// Matches one more row, others moved where need be; false when it cannot be.
bool match_beside(std::size_t start, Matching& matching, const MayMatch& may) {
  const std::size_t columns = matching.row_of.size();
  std::vector<std::size_t> reached_from(columns), unreached(columns), rows{start};
  std::iota(unreached.begin(), unreached.end(), std::size_t{0});
  for (std::size_t next = 0; next < rows.size(); ++next) {
    std::size_t kept = 0;
    for (const std::size_t column : unreached) {
      if (!may(rows[next], column)) {
        unreached[kept++] = column;
        continue;
      }
      reached_from[column] = rows[next];
      if (matching.is_free(column)) {
        matching.turn_over(column, reached_from);
        return true;
      }
      rows.push_back(matching.row_of[column]);
    }
    unreached.resize(kept);
  }
  return false;
}

}  // namespace

std::vector<std::size_t> first_matched(std::size_t rows, std::size_t columns, const MayMatch& may) {
  Matching matching(rows, columns);
  std::vector<std::size_t> matched;
  for (std::size_t row = 0; row < rows && matched.size() < columns; ++row) {
    if (match_beside(row, matching, may)) matched.push_back(row);
  }
  return matched;
}

}  // namespace ordinatio::inline bed
