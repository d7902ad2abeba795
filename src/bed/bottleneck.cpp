#include "bed/bottleneck.h"

#include <algorithm>

namespace ordinatio::inline bed {

Bottleneck::Bottleneck(const PairSizes& sizes, const PairTable& table)
    : sizes_(sizes),
      table_(table),
      matching_(table.items.size(), table.places.size()),
      reached_from_(table.places.size()) {
  for (const std::size_t item : table.items) {
    for (const std::size_t place : table.places) limit_ = std::max(limit_, sizes.at_most(item, place));
  }
}

double Bottleneck::settle() {
  for (std::size_t row = 0; row < table_.items.size(); ++row) {
    const std::size_t column = matching_.column_of[row];
    if (column != Matching::none && at_most(row, column) < limit_) matching_.release(row);
  }
  for (std::size_t row = 0; row < table_.items.size() && limit_ > 0; ++row) {
    if (matching_.column_of[row] == Matching::none) match(row);
  }
  return limit_;
}

/// Where the widest path is narrower than the limit, the rows reached at more than its width have all columns that would
/// do among themselves, one too few (Hall): so the limit falls to it, and no further than it must.
void Bottleneck::match(std::size_t start) {
  width_.assign(reached_from_.size(), 0);
  done_.assign(reached_from_.size(), false);
  reach(start, limit_);
  for (;;) {
    const std::size_t column = widest();
    if (column == Matching::none) {
      limit_ = 0;
      return;
    }
    if (matching_.is_free(column)) {
      limit_ = width_[column];
      matching_.turn_over(column, reached_from_);
      return;
    }
    done_[column] = true;
    reach(matching_.row_of[column], width_[column]);
  }
}

void Bottleneck::reach(std::size_t row, double width) {
  for (std::size_t column = 0; column < width_.size(); ++column) {
    const double through = std::min(width, at_most(row, column));
    if (done_[column] || through <= width_[column]) continue;
    width_[column] = through;
    reached_from_[column] = row;
  }
}

std::size_t Bottleneck::widest() const {
  std::size_t best = Matching::none;
  for (std::size_t column = 0; column < width_.size(); ++column) {
    if (done_[column] || width_[column] == 0) continue;
    if (best == Matching::none || width_[column] > width_[best] ||
        (width_[column] == width_[best] && matching_.is_free(column) && !matching_.is_free(best))) {
      best = column;
    }
  }
  return best;
}

}  // namespace ordinatio::inline bed
