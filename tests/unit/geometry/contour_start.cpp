#include "geometry/contour_start.h"

#include <catch2/catch.hpp>

namespace ordinatio::contour_start_test {

namespace {

Path of_curves() {
  Path path;
  path.move_to({0, 0});
  path.line_to({10, 0});
  path.quad_to({14, 4}, {10, 8});
  path.cubic_to({8, 12}, {2, 12}, {0, 8});
  path.close();
  return path;
}

}  // namespace

TEST_CASE("a closed contour may begin at each of its corners, and is the same contour from there") {
  const Path path = of_curves();
  REQUIRE(starts_of(path) == std::vector<Point>{{0, 0}, {10, 0}, {10, 8}, {0, 8}});
  for (std::size_t start = 0; start < 4; ++start) {
    const Path turned = started_at(path, start);
    CHECK(turned.points().front() == starts_of(path)[start]);
    CHECK(starts_of(turned).size() == 4);
    CHECK(area_of(turned) == Approx(area_of(path)).epsilon(1e-14));
    CHECK(bounds_of(turned) == bounds_of(path));
    CHECK(is_closed(turned));
    CHECK(started_at(turned, (4 - start) % 4) == path);
  }
}

TEST_CASE("the line that closes a contour is drawn once, whether it was said or not") {
  Path said;
  said.move_to({0, 0});
  for (const Point p : {Point{4, 0}, {4, 3}, {0, 0}}) said.line_to(p);
  said.close();
  Path unsaid;
  unsaid.move_to({0, 0});
  for (const Point p : {Point{4, 0}, {4, 3}}) unsaid.line_to(p);
  unsaid.close();
  CHECK(starts_of(said).size() == 3);
  CHECK(started_at(said, 1) == started_at(unsaid, 1));
  CHECK(started_at(said, 0) == said);
}

TEST_CASE("an open contour begins at either end; one that is a point begins there") {
  Path open;
  open.move_to({1, 2});
  open.line_to({3, 4});
  open.quad_to({5, 6}, {7, 2});
  CHECK(starts_of(open) == std::vector<Point>{{1, 2}, {7, 2}});
  CHECK(started_at(open, 1) == reversed(open));
  CHECK_FALSE(is_closed(open));
  Path point;
  point.move_to({3, 3});
  point.close();
  CHECK(starts_of(point) == std::vector<Point>{{3, 3}});
}

}  // namespace ordinatio::contour_start_test
