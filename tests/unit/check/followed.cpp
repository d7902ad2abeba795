#include "check/followed.h"

#include <catch2/catch.hpp>

#include "geometry/contour_start.h"

namespace ordinatio::followed_test {

namespace {

Path shape() {
  Path path;
  path.move_to({0, 0});
  path.line_to({10, 0});
  path.cubic_to({14, 4}, {12, 8}, {10, 8});
  path.line_to({0, 8});
  path.close();
  return path;
}

Path line() {
  Path path;
  path.move_to({20, 1});
  path.quad_to({25, 6}, {30, 1});
  return path;
}

Path together(const Path& a, const Path& b) {
  Path path = a;
  path.append(b);
  return path;
}

}  // namespace

TEST_CASE("contours are the same in any order, from any corner on, open ones from either end") {
  const Transform to_bed = then(quarter_turn(), shift_by({50, 60}));
  const Path wanted = together(shape(), line());
  for (std::size_t start = 0; start < 4; ++start) {
    const Path drawn = transformed(together(reversed(line()), started_at(shape(), start)), to_bed);
    CHECK(is_followed(drawn, wanted, to_bed));
  }
}

TEST_CASE("a line of no length that closes a contour is none") {
  Path wanted;
  wanted.move_to({0, 0});
  for (const Point p : {Point{4, 0}, {4, 3}, {1e-12, 0}}) wanted.line_to(p);
  wanted.close();
  CHECK(is_followed(started_at(wanted, 1), wanted, {}));
}

TEST_CASE("a contour that is missing, drawn twice, moved, turned the other way or left open is not the same") {
  const Path wanted = together(shape(), line());
  CHECK_FALSE(is_followed(shape(), wanted, {}));
  CHECK_FALSE(is_followed(together(wanted, line()), wanted, {}));
  CHECK_FALSE(is_followed(together(line(), line()), wanted, {}));
  CHECK_FALSE(is_followed(transformed(wanted, shift_by({1e-3, 0})), wanted, {}));
  CHECK_FALSE(is_followed(together(reversed(shape()), line()), wanted, {}));
  Path open;
  open.move_to({0, 0});
  open.line_to({10, 0});
  open.cubic_to({14, 4}, {12, 8}, {10, 8});
  open.line_to({0, 8});
  open.line_to({0, 0});
  CHECK_FALSE(is_followed(together(open, line()), wanted, {}));
}

}  // namespace ordinatio::followed_test
