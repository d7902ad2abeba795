#include "machine/piece_order.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>

namespace ordinatio::piece_order_test {

namespace {

std::vector<Bounds> grid(int columns, int rows, Point pitch, Point size) {
  std::vector<Bounds> boxes;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Point corner{pitch.x * column, pitch.y * (rows - 1 - row)};
      boxes.push_back({corner.x, corner.y, corner.x + size.x, corner.y + size.y});
    }
  }
  return boxes;
}

double gap_between(const Bounds& a, const Bounds& b) {
  const double x = std::max({b.left - a.right, a.left - b.right, 0.0});
  const double y = std::max({b.bottom - a.top, a.bottom - b.top, 0.0});
  return length({x, y});
}

double gaps_of(const std::vector<Bounds>& boxes, const std::vector<std::size_t>& order) {
  double gaps = 0;
  for (std::size_t i = 1; i < order.size(); ++i) gaps += gap_between(boxes[order[i - 1]], boxes[order[i]]);
  return gaps;
}

}  // namespace

TEST_CASE("pieces in rows are taken to and fro, from the first on, along the smaller gaps") {
  CHECK(order_of_pieces(grid(4, 3, {160, 110}, {150, 90})) ==
        std::vector<std::size_t>{0, 1, 2, 3, 7, 6, 5, 4, 8, 9, 10, 11});
  CHECK(order_of_pieces(grid(3, 2, {170, 105}, {150, 100})) == std::vector<std::size_t>{0, 3, 4, 1, 2, 5});
  CHECK(order_of_pieces({}).empty());
  CHECK(order_of_pieces({{1, 1, 2, 2}}) == std::vector<std::size_t>{0});
}

TEST_CASE("a few pieces have the least gaps of all orders that begin with the first, or nearly") {
  std::mt19937 random(1790);
  std::uniform_real_distribution<double> any(0, 300), side(10, 60);
  double all = 0, least_of_all = 0;
  for (int run = 0; run < 20; ++run) {
    std::vector<Bounds> boxes;
    for (int i = 0; i < 7; ++i) {
      const Point corner{any(random), any(random)};
      boxes.push_back({corner.x, corner.y, corner.x + side(random), corner.y + side(random)});
    }
    const std::vector<std::size_t> found = order_of_pieces(boxes);
    std::vector<std::size_t> order(boxes.size());
    std::iota(order.begin(), order.end(), 0);
    double least = 1e300;
    do least = std::min(least, gaps_of(boxes, order));
    while (std::next_permutation(order.begin() + 1, order.end()));
    INFO("run " << run);
    CHECK(found.front() == 0);
    CHECK(gaps_of(boxes, found) <= 1.15 * least + 0.5);
    all += gaps_of(boxes, found), least_of_all += least;
  }
  CHECK(all <= 1.02 * least_of_all);
}

TEST_CASE("no piece, pair or three of the order would lie better elsewhere, either way round") {
  std::mt19937 random(1812);
  std::uniform_real_distribution<double> any(0, 300);
  for (int run = 0; run < 40; ++run) {
    std::vector<Bounds> boxes;
    for (int i = 0; i < 12; ++i) {
      const Point corner{any(random), any(random)};
      boxes.push_back({corner.x, corner.y, corner.x + 10, corner.y + 10});
    }
    const std::vector<std::size_t> found = order_of_pieces(boxes);
    const double gaps = gaps_of(boxes, found);
    INFO("run " << run);
    for (std::ptrdiff_t length = 1; length <= 3; ++length) {
      for (std::ptrdiff_t first = 1; first + length <= 12; ++first) {
        std::vector<std::size_t> rest = found;
        std::vector<std::size_t> some(rest.begin() + first, rest.begin() + first + length);
        rest.erase(rest.begin() + first, rest.begin() + first + length);
        for (int way = 0; way < 2; ++way) {
          for (std::size_t to = 1; to <= rest.size(); ++to) {
            std::vector<std::size_t> moved = rest;
            moved.insert(moved.begin() + static_cast<std::ptrdiff_t>(to), some.begin(), some.end());
            if (gaps_of(boxes, moved) < gaps - 1) FAIL_CHECK(gaps << ", and " << gaps_of(boxes, moved));
          }
          std::ranges::reverse(some);
        }
      }
    }
  }
}

TEST_CASE("more pieces than are weighed stay in their order") {
  const std::vector<std::size_t> order = order_of_pieces(grid(100, 6, {10, 10}, {5, 5}));
  CHECK(std::ranges::is_sorted(order));
}

}  // namespace ordinatio::piece_order_test
