#include "bed/least_cost.h"

#include <stdexcept>

namespace ordinatio {

// One more row stands for all columns that are left over, at no cost: so every column is always to be matched, and a
// column that is given back is as good as any other only if its potential says so.

LeastCost::LeastCost(std::size_t rows, std::size_t columns)
    : rows_(rows),
      columns_(columns),
      order_room_(static_cast<Cost>(columns * rows) * static_cast<Cost>(rows + 1) / 2 + 1),
      costs_((rows + 1) * columns, never),
      matching_(rows + 1, columns),
      row_potential_(rows + 1),
      column_potential_(columns),
      reached_from_(columns) {
  for (std::size_t column = 0; column < columns; ++column) costs_[rows * columns + column] = 0;
  for (std::size_t column = rows; column < columns; ++column) matching_.row_of[column] = rows;
  // What the potentials are when all costs are alike: without it, rows in order would each push all before them.
  for (std::size_t column = 0; column < rows; ++column) {
    const Cost after = static_cast<Cost>(rows - 1 - column);
    column_potential_[column] = -after * (after + 1) / 2;
  }
}

void LeastCost::set_cost(std::size_t row, std::size_t column, std::optional<std::int64_t> cost) {
  const Cost order = static_cast<Cost>(column * (rows_ - row));
  const Cost whole = cost ? *cost * order_room_ + order : never;
  costs_[row * columns_ + column] = whole;
  const Cost room = whole - column_potential_[column];
  if (room < row_potential_[row]) {
    row_potential_[row] = room;
    matching_.release(row);
  } else if (matching_.column_of[row] == column && room > row_potential_[row]) {
    matching_.release(row);
  }
}

void LeastCost::settle() {
  for (std::size_t row = 0; row < rows_; ++row) {
    if (matching_.column_of[row] == Matching::none) match(row);
  }
}

void LeastCost::match(std::size_t start) {
  distance_.assign(columns_, never);
  done_.assign(columns_, false);
  done_columns_.clear();
  matching_.column_of[rows_] = Matching::none;  // until the path comes to it
  reach(start, 0);
  for (;;) {
    const std::size_t column = nearest();
    if (column == Matching::none) throw std::logic_error("assignment: a row cannot be matched");
    if (matching_.is_free(column)) {
      raise_potentials(start, distance_[column]);
      matching_.turn_over(column, reached_from_);
      return;
    }
    done_[column] = true;
    done_columns_.push_back(column);
    reach_beyond(column);
  }
}

void LeastCost::reach(std::size_t row, Cost distance) {
  const Cost* costs = &costs_[row * columns_];
  const Cost so_far = distance - row_potential_[row];
  for (std::size_t column = 0; column < columns_; ++column) {
    const Cost through = so_far + costs[column] - column_potential_[column];
    if (done_[column] || through >= distance_[column]) continue;
    distance_[column] = through;
    reached_from_[column] = row;
  }
}

void LeastCost::reach_beyond(std::size_t column) {
  const std::size_t row = matching_.row_of[column];
  if (row == rows_) {
    if (matching_.column_of[rows_] != Matching::none) return;  // come to already, through another column left over
    matching_.column_of[rows_] = column;
  }
  reach(row, distance_[column]);
}

std::size_t LeastCost::nearest() const {
  std::size_t best = Matching::none;
  for (std::size_t column = 0; column < columns_; ++column) {
    if (done_[column] || distance_[column] > never / 2) continue;
    if (best == Matching::none || distance_[column] < distance_[best] ||
        (distance_[column] == distance_[best] && matching_.is_free(column) && !matching_.is_free(best))) {
      best = column;
    }
  }
  return best;
}

void LeastCost::raise_potentials(std::size_t start, Cost distance) {
  row_potential_[start] += distance;
  for (const std::size_t column : done_columns_) {
    const Cost gain = distance - distance_[column];
    const std::size_t row = matching_.row_of[column];
    column_potential_[column] -= gain;
    if (row < rows_ || column == matching_.column_of[rows_]) row_potential_[row] += gain;
  }
}

}  // namespace ordinatio
