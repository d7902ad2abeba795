#include <catch2/catch.hpp>
#include <numbers>
#include <random>

#include "geometry/geometry.h"

using namespace ordinatio;
using std::numbers::pi;

TEST_CASE("outlines have the area of their corners") {
  CHECK(area_of(path_of(rectangle_outline(30, 20, Corner::square, 0))) == 600);
  CHECK(area_of(path_of(rectangle_outline(30, 20, Corner::cut, 3))) == Approx(600 - 4 * 4.5).epsilon(1e-12));
  CHECK(area_of(path_of(rectangle_outline(30, 20, Corner::rounded, 3))) == Approx(600 - (4 - pi) * 9).epsilon(1e-6));
}

TEST_CASE("an inset is the true parallel curve") {
  // Steiner's formula turned inwards: area − perimeter·d + π·d² while the corners' radius lasts.
  const Outline outline = rectangle_outline(30, 20, Corner::rounded, 5);
  const double perimeter = 2 * (20 + 10) + 2 * pi * 5, area = 600 - (4 - pi) * 25;
  const auto inner = inset(outline, 2);
  REQUIRE(inner);
  CHECK(inner->radii.front() == 3);
  CHECK(area_of(path_of(*inner)) == Approx(area - perimeter * 2 + pi * 4).epsilon(1e-6));
  CHECK(inset(outline, 7)->radii.empty());
  CHECK_FALSE(inset(outline, 10));
}

TEST_CASE("cut corners keep their distance") {
  const auto inner = inset(rectangle_outline(30, 20, Corner::cut, 4), 1);
  REQUIRE(inner);
  const ConvexRegion region = region_of(*inner);
  // The cut runs from (0, 4) to (4, 0); a millimetre inside it passes (2 + √½, 2 + √½).
  const double half = std::sqrt(0.5);
  CHECK(distance_outside(region, {2 + half, 2 + half}) == Approx(0).margin(1e-12));
}

TEST_CASE("a rounded region gives away no more than it says") {
  const Outline outline = rectangle_outline(30, 20, Corner::rounded, 8);
  const ConvexRegion region = region_of(outline);
  for (int i = 0; i <= 1000; ++i) {
    const double angle = pi / 2 * i / 1000;
    const Point on_arc{22 + 8 * std::cos(angle), 12 + 8 * std::sin(angle)};
    CHECK(distance_outside(region, on_arc) > -1e-9);
    CHECK(distance_outside(region, on_arc) < arc_sagitta + 1e-9);
  }
}

TEST_CASE("an empty intersection of half-planes is told") {
  ConvexRegion region = region_of(Polygon{{0, 0}, {1, 0}, {1, 1}, {0, 1}});
  CHECK(polygon_of(region).size() == 4);
  region.edges.push_back({{1, 0}, -1});
  CHECK(polygon_of(region).empty());
}

TEST_CASE("a hull holds its points and only their outermost") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> place(0, 1);
  for (int round = 0; round < 100; ++round) {
    std::vector<Point> points(50);
    for (Point& p : points) p = {place(random), place(random)};
    const ConvexHull hull = hull_of(points);
    REQUIRE(is_convex(hull.vertices));
    const ConvexRegion region = region_of(hull.vertices);
    for (const Point p : points) REQUIRE(distance_outside(region, p) < 1e-12);
  }
  CHECK(hull_of({{0, 0}, {1, 1}, {2, 2}}).vertices.size() == 2);
  CHECK(hull_of({{0, 0}, {0, 0}}).vertices.size() == 1);
}

TEST_CASE("stars and bow-ties are not convex") {
  CHECK(is_convex({{0, 0}, {1, 0}, {0, 1}}));
  CHECK_FALSE(is_convex({{0, 0}, {0, 1}, {1, 0}}));  // clockwise
  CHECK_FALSE(is_convex({{0, 0}, {2, 2}, {2, 0}, {0, 2}}));
  Polygon star;
  for (int i = 0; i < 5; ++i) star.push_back({std::cos(4 * pi * i / 5), std::sin(4 * pi * i / 5)});
  CHECK_FALSE(is_convex(star));
}
