// In: items and places that are all to be matched. Out: the largest size that all of them can have. Of the assignment.
// Of this folder alone.
#pragma once

#include <vector>

#include "bed/matching.h"
#include "bed/pair_sizes.h"

namespace ordinatio::inline bed {

/// The items that are to have a place, as rows, and the places that may be used, as columns: no fewer.
struct PairTable {
  std::vector<std::size_t> items, places;
};

/// The largest smallest size, by what is known. Widest augmenting paths (Derigs and Zimmermann, "An augmenting path method
/// for solving linear bottleneck assignment problems", 1978), O(n²) a path. As sizes become known the answer only falls,
/// and only rows whose size fell below it are matched anew.
class Bottleneck {
 public:
  /// Both must outlive it.
  Bottleneck(const PairSizes& sizes, const PairTable& table);
  /// The largest size that all rows can have at once; 0: not all can have one.
  double settle();

 private:
  [[nodiscard]] double at_most(std::size_t row, std::size_t column) const {
    return sizes_.at_most(table_.items[row], table_.places[column]);
  }
  void match(std::size_t start);
  void reach(std::size_t row, double width);
  [[nodiscard]] std::size_t widest() const;

  const PairSizes& sizes_;
  const PairTable& table_;
  Matching matching_;
  double limit_ = 0;  // no matching of all rows is wider
  // Of the path that is sought:
  std::vector<double> width_;  // of the widest way to a column
  std::vector<std::size_t> reached_from_;
  std::vector<bool> done_;
};

}  // namespace ordinatio::inline bed
