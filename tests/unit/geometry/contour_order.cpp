#include "geometry/contour_order.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace ordinatio::contour_order_test {

namespace {

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

std::vector<double> widths_of(const Path& path) {
  std::vector<double> widths;
  for (const Path& contour : contours_of(path)) widths.push_back(bounds_of(contour).width());
  return widths;
}

}  // namespace

TEST_CASE("contours are told apart whole, curves and all, and put in order nothing is lost") {
  Path path = box(0, 0, 10, 10);
  path.move_to({2, 2});
  path.quad_to({4, 0}, {6, 2});
  path.cubic_to({7, 3}, {5, 5}, {2, 4});
  path.close();
  path.move_to({1, 9});
  path.line_to({2, 9});
  path.move_to({50, 50});  // a move that nothing follows
  const std::vector<Path> contours = contours_of(path);
  REQUIRE(contours.size() == 3);
  CHECK(contours[0] == box(0, 0, 10, 10));
  CHECK(contours[1].points().size() == 6);
  const Path ordered = smallest_first(path);
  CHECK(widths_of(ordered).back() == 10);
  CHECK(area_of(ordered) == Approx(area_of(path)));
  CHECK(smallest_first(ordered) == ordered);
}

TEST_CASE("what lies in a contour comes before it, whatever order they came in; what is alike stays as it came") {
  std::vector<Path> nested{box(0, 0, 100, 100), box(5, 5, 40, 40), box(50, 5, 85, 40), box(10, 10, 20, 20),
                           box(12, 12, 15, 15)};
  std::vector<std::size_t> order{0, 1, 2, 3, 4};
  do {
    Path path;
    for (const std::size_t i : order) path.append(nested[i]);
    const Path ordered = smallest_first(path);
    CHECK(widths_of(ordered) == std::vector<double>{3, 10, 35, 35, 100});
    const bool first_twin_first = std::ranges::find(order, 1U) < std::ranges::find(order, 2U);
    CHECK(bounds_of(contours_of(ordered)[2]).left == (first_twin_first ? 5 : 50));
  } while (std::ranges::next_permutation(order).found);
}

TEST_CASE("a contour that crosses itself, its loops against one another, still comes after what lies in it") {
  Path eight;  // two loops that turn opposite ways: its area is nothing
  eight.move_to({0, 0});
  for (const Point p : {Point{10, 10}, {10, 0}, {0, 10}}) eight.line_to(p);
  eight.close();
  Path path = eight;
  path.append(box(1, 4, 2, 6));
  CHECK(area_of(eight) == Approx(0));
  CHECK(widths_of(smallest_first(path)) == std::vector<double>{1, 10});
}

}  // namespace ordinatio::contour_order_test
