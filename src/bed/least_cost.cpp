#include "bed/least_cost.h"

#include <algorithm>
#include <stdexcept>

namespace ordinatio::inline bed {
namespace {

constexpr std::size_t fewest_near = 24;  // columns; half or twice as many took no less time

}  // namespace

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
      near_(rows),
      distance_(columns, out_of_reach),
      so_far_(rows + 1),
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
  const std::size_t place = column * (rows_ - row);
  const Cost order{place};
  const Cost whole = cost ? *cost * order_room_ + order : never;
  costs_[row * columns_ + column] = whole;
  const Cost room = whole - column_potential_[column];
  Near& near = near_[row];
  near.beyond = std::min(near.beyond, room);
  for (auto& [near_cost, near_column] : near.columns) {
    if (near_column == column) near_cost = whole;
  }
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
  matching_.column_of[rows_] = Matching::none;  // until the path comes to it
  reach(start, 0);
  for (;;) {
    const std::size_t next = nearest();
    const Cost distance = next < open_.size() ? distance_[open_[next]] : out_of_reach;
    if (look_farther(distance)) continue;
    if (next == open_.size()) throw std::logic_error("assignment: a row cannot be matched");
    const std::size_t column = open_[next];
    if (matching_.is_free(column)) {
      raise_potentials(start, distance);
      matching_.turn_over(column, reached_from_);
      return forget_path();
    }
    open_[next] = open_.back();
    open_.pop_back();
    done_.push_back(column);
    reach_beyond(column);
  }
}

void LeastCost::reach(std::size_t row, Cost distance) {
  const Cost so_far = so_far_[row] = distance - row_potential_[row];
  Near& near = near_[row];
  ++near.used;
  for (const auto& [cost, column] : near.columns) reach_column(column, row, so_far + cost - column_potential_[column]);
  if (near.columns.size() < columns_) horizons_.push_back({so_far + near.beyond, row});
}

/// Columns that are done with are no farther than where the path is now, so they are not reached again.
void LeastCost::reach_column(std::size_t column, std::size_t row, Cost through) {
  Cost& distance = distance_[column];
  if (through >= distance) return;
  if (distance == out_of_reach) open_.push_back(column);
  distance = through;
  reached_from_[column] = row;
}

void LeastCost::reach_beyond(std::size_t column) {
  const std::size_t row = matching_.row_of[column];
  if (row < rows_) return reach(row, distance_[column]);
  if (matching_.column_of[rows_] != Matching::none) return;  // come to already, through another column left over
  matching_.column_of[rows_] = column;
  const Cost so_far = distance_[column] - row_potential_[rows_];
  for (std::size_t other = 0; other < columns_; ++other) reach_column(other, rows_, so_far - column_potential_[other]);
}

/// Whether there may be nearer columns than at a distance: then those are reached.
bool LeastCost::look_farther(Cost distance) {
  const auto nearer = [distance](const Horizon& horizon) { return horizon.distance < distance; };
  const auto horizon = std::ranges::find_if(horizons_, nearer);
  if (horizon == horizons_.end()) return false;
  const std::size_t row = horizon->row;
  horizons_.erase(horizon);
  look_around(row);
  for (const auto& [away, column] : around_) reach_column(column, row, so_far_[row] + away);
  return true;
}

void LeastCost::look_around(std::size_t row) {
  around_.clear();
  const Cost* costs = &costs_[row * columns_];
  for (std::size_t column = 0; column < columns_; ++column) {
    around_.emplace_back(costs[column] - column_potential_[column], column);
  }
  Near& near = near_[row];
  std::size_t count = std::max(fewest_near, near.columns.size());
  if (near.used * near.columns.size() < columns_) count *= 2;  // looking takes longer than using what was seen
  count = std::min(count, columns_);
  std::ranges::nth_element(around_, around_.begin() + static_cast<std::ptrdiff_t>(count - 1));
  near.used = 0;
  near.columns.clear();
  for (std::size_t i = 0; i < count; ++i) near.columns.emplace_back(costs[around_[i].second], around_[i].second);
  near.beyond = around_[count - 1].first;
}

/// Where in open_; its size when it is empty. A free column before others as near.
std::size_t LeastCost::nearest() const {
  std::size_t best = 0;
  for (std::size_t i = 1; i < open_.size(); ++i) {
    const Cost distance = distance_[open_[i]], least = distance_[open_[best]];
    if (distance < least || (distance == least && matching_.is_free(open_[i]))) best = i;
  }
  return best;
}

void LeastCost::raise_potentials(std::size_t start, Cost distance) {
  row_potential_[start] += distance;
  for (const std::size_t column : done_) {
    const Cost gain = distance - distance_[column];
    const std::size_t row = matching_.row_of[column];
    column_potential_[column] -= gain;
    if (row < rows_ || column == matching_.column_of[rows_]) row_potential_[row] += gain;
  }
}

void LeastCost::forget_path() {
  for (const auto* columns : {&open_, &done_}) {
    for (const std::size_t column : *columns) distance_[column] = out_of_reach;
  }
  open_.clear();
  done_.clear();
  horizons_.clear();
}

}  // namespace ordinatio::inline bed
