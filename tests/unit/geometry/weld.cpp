#include <catch2/catch.hpp>
#include <numbers>

#include "geometry/geometry.h"

namespace ordinatio::weld_test {

namespace {

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

Path together(Path a, const Path& b) {
  a.append(b);
  return a;
}

Polygons welded(const Path& path) { return weld(polygons_of(path, 0.001), 1e-4); }

}  // namespace

TEST_CASE("overlapping contours become one without a seam") {
  const Polygons union_of = welded(together(box(0, 0, 2, 2), box(1, 1, 3, 3)));
  REQUIRE(union_of.size() == 1);
  CHECK(area_of(union_of) == Approx(7).epsilon(1e-9));
}

TEST_CASE("holes stay holes and turn the other way") {
  const Polygons ring = welded(together(box(0, 0, 4, 4), reversed(box(1, 1, 3, 3))));
  REQUIRE(ring.size() == 2);
  CHECK(area_of(ring) == Approx(12).epsilon(1e-9));
  CHECK(area_of(ring[0]) * area_of(ring[1]) < 0);
}

TEST_CASE("overlap is told from mere neighbourhood") {
  CHECK(contours_overlap(together(box(0, 0, 2, 2), box(1, 1, 3, 3)), 1e-3));
  CHECK(contours_overlap(together(box(0, 0, 4, 4), box(1, 1, 3, 3)), 1e-3));  // one fill hides in the other
  CHECK_FALSE(contours_overlap(together(box(0, 0, 1, 1), box(2, 0, 3, 1)), 1e-3));
  CHECK_FALSE(contours_overlap(together(box(0, 0, 4, 4), reversed(box(1, 1, 3, 3))), 1e-3));
  CHECK_FALSE(contours_overlap(together(box(0, 0, 1, 1), box(1, 0, 2, 1)), 1e-3));  // they share an edge
  // A hole that reaches over the edge is no hole: rules of filling disagree there.
  CHECK(contours_overlap(together(box(0, 0, 4, 4), reversed(box(3, 1, 5, 3))), 1e-3));
}

TEST_CASE("a parallel curve lies at its distance") {
  const Polygons grown = offset(polygons_of(box(0, 0, 10, 10), 1), 1, Join::round, 0.001);
  CHECK(area_of(grown) == Approx(100 + 40 + std::numbers::pi).epsilon(1e-4));
  const Polygons shrunk = offset(polygons_of(box(0, 0, 10, 10), 1), -1, Join::mitre, 0.001);
  CHECK(area_of(shrunk) == Approx(64).epsilon(1e-9));
}

}  // namespace ordinatio::weld_test
