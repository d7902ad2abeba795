#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "geometry/geometry.h"

namespace ordinatio::outline_test {
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
  CHECK(distance_outside(region, {2 + half, 2 + half}) == Approx(0).margin(1e-11));
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

TEST_CASE("corners of different radii stay parallel when the outline is moved inwards") {
  const std::array corners{CornerShape{Corner::rounded, 12}, CornerShape{}, CornerShape{Corner::rounded, 4},
                           CornerShape{Corner::cut, 10, 6}};
  const Outline outline = rectangle_outline(150, 100, corners);
  const double lost = 1 - pi / 4;  // of the square about a rounded corner
  CHECK(area_of(path_of(outline)) == Approx(15000 - lost * (144 + 16) - 30).epsilon(1e-6));
  const auto inner = inset(outline, 3);
  REQUIRE(inner);
  CHECK(inner->radii == std::vector<double>{9, 0, 1, 0, 0});
  // From the corner, the cut is x/10 + y/6 = 1; all three lines move by 3 mm, and the legs shrink alike.
  const double share = 1 + 3 * std::hypot(10, 6) / (10 * 6) - 3.0 / 10 - 3.0 / 6, across = 10 * share, up = 6 * share;
  CHECK(area_of(path_of(*inner)) == Approx(144 * 94 - lost * (81 + 1) - across * up / 2).epsilon(1e-6));
}

TEST_CASE("where arcs of different radii leave no room for an edge, the inside keeps its distance all the same") {
  // The right end is a half circle but for its lower corner, which is sharp: the inner arc would leave the piece.
  const Outline outline =
      rectangle_outline(100, 20, {CornerShape{}, CornerShape{}, {Corner::rounded, 20}, CornerShape{}});
  const auto inner = inset(outline, 4);
  REQUIRE(inner);
  const ConvexRegion outer_region = region_of(outline), inner_region = region_of(*inner);
  for (double x = 0; x <= 100; x += 0.7) {
    for (double y = 0; y <= 20; y += 0.7) {
      const double to_edge = -distance_outside(outer_region, {x, y}), beyond = distance_outside(inner_region, {x, y});
      if (beyond <= 0) CHECK(to_edge >= 4 - 1e-9);
      if (to_edge >= 4 + 2 * arc_sagitta) CHECK(beyond <= 0);
    }
  }
}

}  // namespace ordinatio::outline_test
