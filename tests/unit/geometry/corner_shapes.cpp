#include <catch2/catch.hpp>

#include "geometry/geometry.h"

namespace ordinatio::corner_shapes_test {

TEST_CASE("a rectangle gives back the shapes of the corners that it was made with") {
  const CornerShape square{}, round{Corner::rounded, 18, 18}, cut{Corner::cut, 12, 8}, steep{Corner::cut, 3, 40};
  for (const auto& shapes : {std::array{square, square, square, square}, std::array{round, square, cut, steep},
                             std::array{cut, cut, steep, round}, std::array{steep, round, round, cut}}) {
    const auto found = corner_shapes_of(rectangle_outline(150, 100, shapes), 150, 100);
    REQUIRE(found);
    for (std::size_t i = 0; i < 4; ++i) {
      INFO(i);
      CHECK((*found)[i].kind == shapes[i].kind);
      CHECK((*found)[i].across == Approx(shapes[i].across));
      CHECK((*found)[i].up == Approx(shapes[i].up));
    }
  }
}

TEST_CASE("what is no rectangle with corners rounded or cut has no such shapes") {
  CHECK_FALSE(corner_shapes_of({{{0, 0}, {150, 0}, {148, 99}, {3, 101}}, {}}, 150, 101));
  CHECK_FALSE(
      corner_shapes_of({{{5, 0}, {145, 0}, {150, 50}, {145, 100}, {5, 100}, {0, 50}}, {5, 0, 0, 0, 0, 0}}, 150, 100));
  CHECK_FALSE(corner_shapes_of(rectangle_outline(140, 100, Corner::square, 0), 150, 100));
  CHECK_FALSE(corner_shapes_of({{{0, 0}, {150, 0}, {140, 100}, {5, 100}}, {}}, 150, 100));  // no side is left of two
  // A corner that is cut in two steps.
  CHECK_FALSE(corner_shapes_of({{{10, 0}, {150, 0}, {150, 100}, {0, 100}, {0, 10}, {3, 3}}, {}}, 150, 100));
}

TEST_CASE("edges that cross are found, and edges that touch are not") {
  CHECK(crossing_edges({{0, 0}, {10, 10}, {10, 0}, {0, 10}}) == std::pair<std::size_t, std::size_t>{0, 2});
  CHECK(crossing_edges({{0, 0}, {9, 0}, {9, 9}, {5, -1}, {0, 9}}) == std::pair<std::size_t, std::size_t>{0, 2});
  CHECK_FALSE(crossing_edges({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
  CHECK_FALSE(crossing_edges({{0, 0}, {5, 5}, {10, 0}, {10, 10}, {5, 5}, {0, 10}}));  // a waist
  CHECK_FALSE(crossing_edges({{0, 0}, {10, 0}, {5, 0}}));
  CHECK_FALSE(crossing_edges({}));
}

}  // namespace ordinatio::corner_shapes_test
