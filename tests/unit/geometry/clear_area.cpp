#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "allowed_area.h"
#include "geometry/geometry.h"

namespace ordinatio::clear_area_test {

namespace {

/// Corners at random distances around a middle: seldom convex, never crossing itself.
Polygon random_star(std::mt19937& random, Point middle, double reach, int corners) {
  std::uniform_real_distribution<double> distance(0.15 * reach, reach);
  Polygon star;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners, r = distance(random);
    star.push_back(middle + r * Point{std::cos(angle), std::sin(angle)});
  }
  return star;
}

/// A star or a square with holes, and chips at its edge, as Clipper returns it: sometimes in several parts.
Polygons random_area(std::mt19937& random) {
  std::uniform_real_distribution<double> place(-70, 70);
  std::uniform_int_distribution<int> corners(3, 40);
  Polygons area{random_star(random, {0, 0}, 100, corners(random))};
  if (corners(random) < 20) area = {{{-70, -70}, {70, -70}, {70, 70}, {-70, 70}}};
  const int holes = corners(random) / 5;
  for (int i = 0; i < holes; ++i) {
    area = difference(area, {random_star(random, {place(random), place(random)}, 25, corners(random))}, 1e-6);
  }
  return area;
}

double area_of_hulls(const std::vector<ConvexHull>& hulls) {
  double area = 0;
  for (const ConvexHull& hull : hulls) area += area_of(hull.vertices);
  return area;
}

Polygons polygons_of_hulls(const std::vector<ConvexHull>& hulls) {
  Polygons polygons;
  for (const ConvexHull& hull : hulls) polygons.push_back(hull.vertices);
  return polygons;
}

void require_exact(const Polygons& allowed) {
  const ClearArea area = clear_area_of(allowed);
  std::vector<Point> points;
  for (const Polygon& polygon : allowed) points.insert(points.end(), polygon.begin(), polygon.end());
  const double hull = area_of(hull_of(std::move(points)).vertices);
  REQUIRE(hull - area_of_hulls(area.obstacles) == Approx(area_of(allowed)).margin(1e-9 * hull));
  for (const ConvexHull& piece : area.obstacles) REQUIRE(piece.vertices.size() >= 3);
  // That no two pieces overlap and none reaches into the area is a check of its own: areas alone could cancel.
  const Polygons pieces = polygons_of_hulls(area.obstacles);
  REQUIRE(area_of(weld(pieces, 1e-7)) == Approx(area_of_hulls(area.obstacles)).margin(1e-7 * hull));
  REQUIRE(area_of(intersection(pieces, allowed, 1e-7)) == Approx(0).margin(1e-7 * hull));
}

}  // namespace

TEST_CASE("a convex area has no obstacles") {
  CHECK(clear_area_of({{{0, 0}, {4, 0}, {4, 3}, {0, 3}}}).obstacles.empty());
  // Corners in line with their neighbours are none.
  CHECK(clear_area_of({{{0, 0}, {1, 0}, {4, 0}, {4, 1}, {4, 3}, {2, 3}, {0, 3}}}).obstacles.empty());
}

TEST_CASE("a pocket and a hole become one convex piece each where they are convex") {
  const ClearArea l_shape = clear_area_of({{{0, 0}, {10, 0}, {10, 4}, {4, 4}, {4, 10}, {0, 10}}});
  REQUIRE(l_shape.region.edges.size() == 5);
  REQUIRE(l_shape.obstacles.size() == 1);
  CHECK(area_of(l_shape.obstacles[0].vertices) == Approx(18));
  const ClearArea ring =
      clear_area_of({{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{3, 3}, {3, 6}, {4.5, 7}, {6, 6}, {6, 3}, {4.5, 2}}});
  REQUIRE(ring.region.edges.size() == 4);
  REQUIRE(ring.obstacles.size() == 1);
  CHECK(ring.obstacles[0].vertices.size() == 6);
}

TEST_CASE("a pocket whose sides lie in the hull's edge loses nothing but the pocket") {
  require_exact({{{0, 0}, {2, 0}, {2, 3}, {5, 3}, {5, 0}, {9, 0}, {9, 9}, {0, 9}}});
  require_exact({{{0, 0}, {2, 0}, {3, 0}, {3, 3}, {5, 3}, {5, 0}, {6, 0}, {9, 0}, {9, 9}, {0, 9}}});
}

TEST_CASE("a hole and a pocket that touch an edge between its corners lose nothing") {
  require_exact({{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{0, 3}, {4, 7}, {5, 2}}});
  require_exact({{{0, 0}, {3, 0}, {3, 4}, {6, 4}, {6, 0}, {9, 0}, {9, 9}, {0, 9}}, {{4, 4}, {4, 6}, {5, 6}}});
  require_exact({{{0, 0}, {2, 0}, {4, 6}, {0, 3}, {6, 8}, {6, 0}, {9, 0}, {9, 9}, {0, 9}}});  // touches its own edge
}

TEST_CASE("islands, an island in a hole, and a hole that touches the outline in a corner are areas too") {
  require_exact({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {{5, 5}, {7, 5}, {7, 8}, {5, 8}}});
  require_exact({{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{2, 2}, {2, 7}, {7, 7}, {7, 2}}, {{4, 4}, {5, 4}, {5, 5}, {4, 5}}});
  require_exact({{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, {{0, 0}, {2, 4}, {4, 2}}});
}

TEST_CASE("the hull less the pieces is the area, whatever its shape") {
  const unsigned seed = 1983;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 500; ++round) {
    INFO("round " << round);
    require_exact(random_area(random));
  }
}

TEST_CASE("the pieces of an area are together the area") {
  std::mt19937 random(11);
  for (int round = 0; round < 200; ++round) {
    INFO("round " << round);
    const Polygons area = random_area(random);
    const std::vector<ConvexHull> pieces = convex_pieces(area);
    REQUIRE(area_of_hulls(pieces) == Approx(area_of(area)).epsilon(1e-9));
    REQUIRE(area_of(weld(polygons_of_hulls(pieces), 1e-7)) == Approx(area_of(area)).epsilon(1e-7));
  }
}

TEST_CASE("corners that are nearly in line cost no area and no piece") {
  std::mt19937 random(12);
  std::uniform_real_distribution<double> off(-1e-13, 1e-13);
  for (int round = 0; round < 100; ++round) {
    // A square with a notch, each edge parted by many corners a rounding away from it.
    const Polygon coarse{{0, 0}, {90, 0}, {90, 60}, {50, 60}, {45, 30}, {40, 60}, {0, 60}};
    Polygon fine;
    for (std::size_t i = 0; i < coarse.size(); ++i) {
      for (int part = 0; part < 10; ++part) {
        const Point on = coarse[i] + part / 10.0 * (coarse[(i + 1) % coarse.size()] - coarse[i]);
        fine.push_back(on + Point{off(random), off(random)});
      }
    }
    const ClearArea area = clear_area_of({fine});
    CHECK(area_of_hulls(area.obstacles) == Approx(150).epsilon(1e-9));
    CHECK(area.obstacles.size() <= 3);
  }
}

TEST_CASE("contours that cross after all leave nothing uncovered") {
  const Polygons bow{{{0, 0}, {4, 4}, {4, 0}, {0, 4}, {-3, 2}}};
  for (const ConvexHull& piece : convex_pieces(bow)) CHECK(piece.vertices.size() >= 3);
  CHECK(convex_pieces({}).empty());
  CHECK(convex_pieces({{{0, 0}, {1, 1}}}).empty());
  CHECK(convex_pieces({{{0, 0}, {1, 1}, {2, 2}, {3, 3}}}).empty());
}

TEST_CASE("the depth of a line inside a convex thing is the distance to the nearest edge, at its deepest") {
  const ConvexRegion box = region_of(Polygon{{0, 0}, {10, 0}, {10, 6}, {0, 6}});
  CHECK(depth_inside(box, {-5, 2}, {15, 2}) == Approx(2));
  CHECK(depth_inside(box, {-5, 3}, {15, 3}) == Approx(3));
  CHECK(depth_inside(box, {4, -1}, {4, 1}) == Approx(1));
  CHECK(depth_inside(box, {-1, 1}, {1, -1}) == Approx(0).margin(1e-12));  // through the corner
  CHECK(depth_inside(box, {-3, 1}, {1, -1}) == Approx(-1.0 / 3));         // past it
  CHECK(depth_inside(box, {3, 3}, {3, 3}) == Approx(3));
  // Sampling never finds a deeper place, and a fine one comes near.
  std::mt19937 random(13);
  std::uniform_real_distribution<double> place(-12, 12);
  for (int round = 0; round < 500; ++round) {
    std::vector<Point> points(9);
    for (Point& p : points) p = {place(random), place(random)};
    const ConvexRegion thing = region_of(hull_of(points).vertices);
    const Point a{place(random), place(random)}, b{place(random), place(random)};
    double sampled = -1e9;
    for (int i = 0; i <= 1000; ++i) {
      sampled = std::max(sampled, -distance_outside(thing, a + i / 1000.0 * (b - a)));
    }
    REQUIRE(depth_inside(thing, a, b) >= sampled - 1e-12);
    REQUIRE(depth_inside(thing, a, b) <= sampled + 0.04);
  }
}

}  // namespace ordinatio::clear_area_test
