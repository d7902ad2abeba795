#include "fit/rectangle.h"

#include <catch2/catch.hpp>
#include <random>

#include "hull_copy.h"

namespace ordinatio::rectangle_test {

TEST_CASE("the closed form in a rectangle is what the programme finds") {
  const unsigned seed = 411;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto between = [&random](double least, double most) {
    return std::uniform_real_distribution<double>(least, most)(random);
  };
  for (int i = 0; i < 2000; ++i) {
    const Bounds room{between(-50, 50), between(-50, 50), between(60, 200), between(60, 200)};
    Bounds box{between(-9, 0), between(-9, 0), between(0.1, 9), between(0.1, 9)};
    const ConvexHull hull{{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}}};
    Wish wish;
    wish.anchor = {between(box.left, box.right), between(box.bottom, box.top)};
    wish.target = {between(room.left, room.right), between(room.bottom, room.top)};
    if (i % 3 == 0) wish.largest = between(1, 20);
    wish.off_axis_gain = i % 4 == 0 ? -1 : between(0, 0.5);
    Polygon corners{{room.left, room.bottom}, {room.right, room.bottom}, {room.right, room.top}, {room.left, room.top}};
    ConvexRegion region = region_of(corners);
    const auto as_box = [&hull](const ConvexRegion& r) {
      return rectangle_of(fit_rows([&hull](Point normal) { return support_of(hull, normal); }, r));
    };
    REQUIRE(as_box(region));
    REQUIRE(*as_box(region) == room);
    const auto closed = largest_copy(hull, region, wish);
    region.edges.push_back({{0.6, 0.8}, 1e4});  // far away: now it is a region as any other
    REQUIRE_FALSE(as_box(region));
    const auto found = largest_copy(hull, region, wish);
    REQUIRE(closed);
    REQUIRE(found);
    INFO("case " << i);
    REQUIRE(closed->size == Approx(found->size).epsilon(1e-9));
    REQUIRE(closed->shift.x == Approx(found->shift.x).margin(1e-6));
    REQUIRE(closed->shift.y == Approx(found->shift.y).margin(1e-6));
  }
}

TEST_CASE("a rectangle without room, or a target outside it, is met as by the programme") {
  CHECK_FALSE(largest_copy_in({0, 0, -1, 10}, {0, 0, 1, 1}, {}));
  Wish outside;
  outside.anchor = {0.5, 0.5}, outside.target = {200, 5};
  const auto copy = largest_copy_in({0, 0, 100, 10}, {0, 0, 1, 1}, outside);
  REQUIRE(copy);
  CHECK(copy->size == Approx(10));
  CHECK(copy->shift.x == Approx(90));
}

TEST_CASE("a row that asks for more than the box is heeded, though all rows lie square") {
  const std::vector<Point> corners{{0, 0}, {2, 0}, {2, 1}, {0, 1}};
  const ConvexHull hull{corners};
  const ConvexRegion room = region_of(Polygon{{0, 0}, {100, 0}, {100, 30}, {0, 30}});
  std::vector<FitRow> rows = fit_rows([&hull](Point normal) { return support_of(hull, normal); }, room);
  const Bounds box{0, 0, 2, 1};
  Wish wish;
  wish.anchor = {1, 0.5};
  wish.target = {50, 15};
  CHECK(largest_copy(rows, box, wish)->size == Approx(30));
  rows.push_back({0.5, {0, -1}, 0});  // half as far from the floor as it is high
  const auto copy = largest_copy(rows, box, wish);
  REQUIRE(copy);
  CHECK(copy->size == Approx(20));
  CHECK(copy->shift.y == Approx(10));
}

}  // namespace ordinatio::rectangle_test
