#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "fit/fit.h"
#include "hull_copy.h"

namespace ordinatio::programme_test {

namespace {

Polygon rectangle(double w, double h) { return {{0, 0}, {w, 0}, {w, h}, {0, h}}; }

Placement fitted(const Polygon& shape, const Polygon& room, Wish wish) {
  const auto placement = largest_copy(hull_of(shape), region_of(room), wish);
  REQUIRE(placement);
  return *placement;
}

Polygon random_polygon(std::mt19937& random, double reach) {
  std::uniform_real_distribution<double> place(-reach, reach);
  std::vector<Point> points(12);
  for (Point& p : points) p = {place(random), place(random)};
  return hull_of(std::move(points)).vertices;
}

constexpr double any_place = -1;  // off_axis_gain: the axis does not matter

}  // namespace

TEST_CASE("of all places that reach the size the nearest to axis and middle is taken") {
  // A wide line in a wide room: the height is free, and the middle is wanted.
  const Placement p = fitted(rectangle(4, 1), rectangle(80, 60), {{2, 0.5}, {40, 30}, 1e6, 0.1});
  CHECK(p.size == Approx(20).epsilon(1e-9));
  CHECK(p.shift.x == Approx(0).margin(1e-6));
  CHECK(p.shift.y == Approx(20).epsilon(1e-9));
  // The middle wanted is off the room's: the copy goes as near as it can.
  const Placement low = fitted(rectangle(4, 1), rectangle(80, 60), {{2, 0.5}, {40, 5}, 1e6, 0.1});
  CHECK(low.shift.y == Approx(0).margin(1e-6));
}

TEST_CASE("a size limit holds, and then the place is as wished") {
  const Placement p = fitted(rectangle(4, 1), rectangle(80, 60), {{2, 0.5}, {30, 20}, 5, 0.1});
  CHECK(p.size == Approx(5).epsilon(1e-9));
  CHECK(p(Point{2, 0.5}).x == Approx(30).epsilon(1e-9));
  CHECK(p(Point{2, 0.5}).y == Approx(20).epsilon(1e-9));
}

TEST_CASE("a share of the size is given up to come nearer to the middle, and no more than that") {
  // A board a millimetre narrower at its top: the line would lie at the very bottom for a third of a hundredth.
  const Polygon board{{0, 0}, {100, 0}, {99.5, 60}, {0.5, 60}};
  Wish wish{{5, 0.5}, {50, 30}, 1e6, 0.1};
  CHECK(fitted(rectangle(10, 1), board, wish)(wish.anchor).y < 6);
  wish.for_middle = 0.01;
  const Placement middle = fitted(rectangle(10, 1), board, wish);
  CHECK(middle(wish.anchor).y == Approx(30).epsilon(1e-9));
  CHECK(middle.size == Approx(99.5 / (10 + 1 / 120.0)).epsilon(1e-9));  // as wide as the board at the line's top
  wish.off_axis_gain = any_place;
  CHECK(fitted(rectangle(10, 1), board, wish)(wish.anchor).y == Approx(30).epsilon(1e-9));
  // Ten times as narrow at the top: the copy comes as near as its share takes it.
  const Polygon wedge{{0, 0}, {100, 0}, {95, 60}, {5, 60}};
  wish = {{5, 0.5}, {50, 30}, 1e6, 0.1};
  const Placement low = fitted(rectangle(10, 1), wedge, wish);
  CHECK(low.shift.y == Approx(0).margin(1e-6));
  wish.for_middle = 0.01;
  const Placement higher = fitted(rectangle(10, 1), wedge, wish);
  CHECK(higher.size == Approx(0.99 * low.size).epsilon(1e-9));
  CHECK(higher.shift.y == Approx(6 * (100 - 10 * higher.size) - higher.size).epsilon(1e-6));  // where it touches
  // In a triangle, or where it fills the height, the same share takes a copy hardly anywhere.
  const Polygon triangle{{0, 0}, {100, 0}, {50, 60}};
  wish = {{2, 0.5}, {50, 30}, 1e6, 0.1};
  const double size = fitted(rectangle(4, 1), triangle, wish).size;
  wish.for_middle = 0.01;
  CHECK(fitted(rectangle(4, 1), triangle, wish).size == Approx(size).epsilon(1e-10));
  wish = {{2, 0.6}, {50, 30}, 1e6, 0.1, 0.01};
  CHECK(fitted(rectangle(4, 4), rectangle(100, 60), wish).size == Approx(15).epsilon(1e-9));
}

TEST_CASE("the axis is left only when that pays") {
  // A room with one corner cut away: on the axis the square is smaller than beside it.
  const Polygon room{{0, 0}, {100, 0}, {100, 60}, {70, 90}, {0, 90}};
  const Polygon square = rectangle(1, 1);
  const Wish strict{{0.5, 0.5}, {50, 45}, 1e6, 10.0}, loose{{0.5, 0.5}, {50, 45}, 1e6, 0.0};
  const Placement held = fitted(square, room, strict), freed = fitted(square, room, loose);
  CHECK(held(Point{0.5, 0.5}).x == Approx(50).epsilon(1e-9));
  CHECK(freed.size > held.size * 1.01);
  CHECK(freed(Point{0.5, 0.5}).x < 49);
  const double gain = freed.size / held.size - 1;
  Wish wish = strict;
  wish.off_axis_gain = gain * 1.01;
  CHECK(fitted(square, room, wish).size == Approx(held.size));
  wish.off_axis_gain = gain * 0.99;
  CHECK(fitted(square, room, wish).size == Approx(freed.size));
}

TEST_CASE("the copy stays inside and touches, for any convex shapes") {
  std::mt19937 random(2026);
  for (int round = 0; round < 2000; ++round) {
    const Polygon shape = random_polygon(random, 1), room = random_polygon(random, 100);
    const Placement p = fitted(shape, room, {shape[0], room[0], 1e6, any_place});
    double outside = -1e9;
    for (const Point corner : shape) outside = std::max(outside, distance_outside(region_of(room), p(corner)));
    REQUIRE(outside <= 1e-9);
    REQUIRE(outside > -1e-6);
  }
}

TEST_CASE("scaling, turning and mirroring the room and the shape scales, turns and mirrors the fit") {
  std::mt19937 random(5);
  const auto turned = [](Polygon polygon, bool mirrored) {
    for (Point& p : polygon) p = mirrored ? Point{-p.x, p.y} : Point{0.6 * p.x - 0.8 * p.y, 0.8 * p.x + 0.6 * p.y};
    return hull_of(std::move(polygon)).vertices;
  };
  for (int round = 0; round < 300; ++round) {
    const Polygon shape = random_polygon(random, 1), room = random_polygon(random, 100);
    const double size = fitted(shape, room, {shape[0], {0, 0}, 1e6, any_place}).size;
    for (const bool mirrored : {false, true}) {
      const double other =
          fitted(turned(shape, mirrored), turned(room, mirrored), {shape[0], {0, 0}, 1e6, any_place}).size;
      REQUIRE(other == Approx(size).epsilon(1e-9));
    }
    Polygon large = room;
    for (Point& p : large) p = 3.5 * p;
    REQUIRE(fitted(shape, large, {shape[0], {0, 0}, 1e6, any_place}).size == Approx(3.5 * size).epsilon(1e-9));
  }
}

TEST_CASE("a smaller room never gives a larger size") {
  std::mt19937 random(6);
  std::uniform_real_distribution<double> depth(0, 5);
  for (int round = 0; round < 300; ++round) {
    const Polygon shape = random_polygon(random, 1);
    ConvexRegion room = region_of(random_polygon(random, 100));
    const Wish wish{shape[0], {0, 0}, 1e6, any_place};
    const auto before = largest_copy(hull_of(shape), room, wish);
    for (HalfPlane& edge : room.edges) edge.offset -= depth(random);
    const auto after = largest_copy(hull_of(shape), room, wish);
    REQUIRE((!after || after->size <= before->size * (1 + 1e-9)));
  }
}

TEST_CASE("the order of the room's edges does not matter beyond rounding") {
  std::mt19937 random(8);
  for (int round = 0; round < 100; ++round) {
    const Polygon shape = random_polygon(random, 1);
    ConvexRegion room = region_of(random_polygon(random, 100));
    const Wish wish{shape[0], {0, 0}, 1e6, any_place};
    const double size = largest_copy(hull_of(shape), room, wish)->size;
    std::shuffle(room.edges.begin(), room.edges.end(), random);
    REQUIRE(largest_copy(hull_of(shape), room, wish)->size == Approx(size).epsilon(1e-9));
  }
}

TEST_CASE("where there is no room there is no copy") {
  ConvexRegion empty = region_of(rectangle(10, 10));
  empty.edges.push_back({{1, 0}, -5});
  CHECK_FALSE(largest_copy(hull_of(rectangle(1, 1)), empty, {{0, 0}, {5, 5}, 1e6, 0.1}));
  CHECK_FALSE(largest_copy(ConvexHull{}, region_of(rectangle(10, 10)), {{0, 0}, {5, 5}, 1e6, 0.1}));
}

}  // namespace ordinatio::programme_test
