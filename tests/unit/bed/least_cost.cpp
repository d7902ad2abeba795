#include "bed/least_cost.h"

#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

namespace ordinatio::least_cost_test {

namespace {

constexpr std::int64_t none = -1;

/// Costs of pairs, row by row; a whole diagonal always may be, so that all rows can be matched.
struct Costs {
  std::size_t rows, columns;
  std::vector<std::int64_t> of;

  Costs(std::size_t row_count, std::size_t column_count)
      : rows(row_count), columns(column_count), of(row_count * column_count, none) {}
  [[nodiscard]] std::optional<std::int64_t> at(std::size_t row, std::size_t column) const {
    const std::int64_t cost = of[row * columns + column];
    return cost == none ? std::nullopt : std::optional(cost);
  }
};

std::int64_t draw(std::mt19937& random, bool may_be_none, int largest) {
  const bool is_none = std::uniform_int_distribution(0, 2)(random) == 0;
  return may_be_none && is_none ? none : std::uniform_int_distribution(0, largest)(random);
}

/// What a matching costs, and then how far it is from the order of rows and columns.
std::pair<std::int64_t, std::size_t> cost_of(const LeastCost& least_cost, const Costs& costs) {
  std::int64_t cost = 0;
  std::size_t order = 0;
  std::vector<bool> taken(costs.columns);
  for (std::size_t row = 0; row < costs.rows; ++row) {
    const std::size_t column = least_cost.column_of(row);
    REQUIRE(costs.at(row, column));
    REQUIRE_FALSE(taken[column]);
    taken[column] = true;
    cost += *costs.at(row, column);
    order += column * (costs.rows - row);
  }
  return {cost, order};
}

LeastCost settled(const Costs& costs) {
  LeastCost least_cost(costs.rows, costs.columns);
  for (std::size_t row = 0; row < costs.rows; ++row) {
    for (std::size_t column = 0; column < costs.columns; ++column) {
      least_cost.set_cost(row, column, costs.at(row, column));
    }
  }
  least_cost.settle();
  return least_cost;
}

}  // namespace

TEST_CASE("costs that rose and fell are matched as well as if they had been so from the start") {
  std::mt19937 random(1987);
  for (const auto& [rows, columns] : {std::pair<std::size_t, std::size_t>{70, 70}, {50, 90}, {5, 60}}) {
    for (const int largest : {1'000'000, 20, 0}) {
      Costs costs(rows, columns);
      const auto redraw = [&](std::size_t row, std::size_t column) {
        return costs.of[row * columns + column] = draw(random, row != column, largest);
      };
      for (std::size_t pair = 0; pair < rows * columns; ++pair) redraw(pair / columns, pair % columns);
      LeastCost changing = settled(costs);
      for (int round = 0; round < 40; ++round) {
        std::vector<std::size_t> before;
        for (std::size_t row = 0; row < rows; ++row) before.push_back(changing.column_of(row));
        for (int change = 0; change < (round % 4 == 0 ? 500 : 5); ++change) {
          const std::size_t row = random() % rows;
          // Now and then of a pair that was matched: it is what the others hang on.
          const std::size_t column = change % 2 == 0 ? random() % columns : before[row];
          redraw(row, column);
          changing.set_cost(row, column, costs.at(row, column));
        }
        changing.settle();
        INFO(rows << " rows, " << columns << " columns, costs to " << largest << ", round " << round);
        REQUIRE(cost_of(changing, costs) == cost_of(settled(costs), costs));
      }
    }
  }
}

TEST_CASE("a row that cannot be matched is a bug of the caller") {
  LeastCost least_cost(2, 3);
  least_cost.set_cost(0, 1, 5);
  CHECK_THROWS_AS(least_cost.settle(), std::logic_error);
  LeastCost same(2, 3);
  same.set_cost(0, 1, 5);
  same.set_cost(1, 1, 5);
  CHECK_THROWS_AS(same.settle(), std::logic_error);
}

}  // namespace ordinatio::least_cost_test
