#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "geometry/geometry.h"

namespace ordinatio::path_test {

namespace {

/// A circle of four cubics, the usual approximation: its radius errs by 2.7e-4 at most.
Path circle(Point centre, double r) {
  const double k = 4.0 / 3 * (std::sqrt(2.0) - 1) * r;
  const auto at = [&](double x, double y) { return centre + Point{x, y}; };
  Path path;
  path.move_to(at(r, 0));
  path.cubic_to(at(r, k), at(k, r), at(0, r));
  path.cubic_to(at(-k, r), at(-r, k), at(-r, 0));
  path.cubic_to(at(-r, -k), at(-k, -r), at(0, -r));
  path.cubic_to(at(k, -r), at(r, -k), at(r, 0));
  path.close();
  return path;
}

Path square(double side) {
  Path path;
  path.add_rectangle({0, 0, side, side});
  return path;
}

}  // namespace

TEST_CASE("bounds are those of the curve, not of its control points") {
  Path arch;
  arch.move_to({0, 0});
  arch.quad_to({1, 2}, {2, 0});
  CHECK(bounds_of(arch) == Bounds{0, 0, 2, 1});
  Path wave;
  wave.move_to({0, 0});
  wave.cubic_to({0, 4}, {4, -4}, {4, 0});
  const Bounds bounds = bounds_of(wave);
  // y = 12t(1−t)(1−2t) has its extrema ±2/√3 at t = ½ ∓ 1/√12.
  CHECK(bounds.top == Approx(2 / std::sqrt(3.0)).epsilon(1e-12));
  CHECK(bounds.bottom == Approx(-2 / std::sqrt(3.0)).epsilon(1e-12));
}

TEST_CASE("areas are exact, signed, and the same wherever the path lies") {
  CHECK(area_of(square(3)) == 9);
  CHECK(area_of(reversed(square(3))) == -9);
  Path arch;  // under a parabola of base 2 and height 1: two thirds of the box (Archimedes)
  arch.move_to({2, 0});
  arch.quad_to({1, 2}, {0, 0});
  arch.close();
  CHECK(area_of(arch) == Approx(4.0 / 3).epsilon(1e-14));
  const Path round = circle({0, 0}, 1);
  CHECK(area_of(round) == Approx(std::numbers::pi).epsilon(3e-4));
  CHECK(area_of(transformed(round, shift_by({1e5, -1e5}))) == Approx(area_of(round)).epsilon(1e-9));
}

TEST_CASE("centres of gravity are exact, and go with the path") {
  Path triangle;
  triangle.move_to({0, 0}), triangle.line_to({6, 0}), triangle.line_to({0, 3}), triangle.close();
  CHECK(centroid_of(triangle).x == Approx(2).epsilon(1e-14));
  CHECK(centroid_of(triangle).y == Approx(1).epsilon(1e-14));
  CHECK(centroid_of(reversed(triangle)).y == Approx(1).epsilon(1e-14));
  Path arch;  // under a parabola: two fifths of its height (Archimedes)
  arch.move_to({2, 0}), arch.quad_to({1, 2}, {0, 0}), arch.close();
  CHECK(centroid_of(arch).x == Approx(1).epsilon(1e-14));
  CHECK(centroid_of(arch).y == Approx(0.4).epsilon(1e-14));
  Path cubic;  // the same arch as a cubic, and one that is not even, against its chords
  cubic.move_to({2, 0}), cubic.cubic_to({4.0 / 3, 4.0 / 3}, {2.0 / 3, 4.0 / 3}, {0, 0}), cubic.close();
  CHECK(centroid_of(cubic).y == Approx(0.4).epsilon(1e-14));
  Path uneven;
  uneven.move_to({2, 0}), uneven.cubic_to({3, 2}, {-1, 5}, {0, 0}), uneven.close();
  const Path chords = path_of(polygons_of(uneven, 1e-7));
  CHECK(centroid_of(uneven).x == Approx(centroid_of(chords).x).epsilon(1e-6));
  CHECK(centroid_of(uneven).y == Approx(centroid_of(chords).y).epsilon(1e-6));
  const Path far = transformed(uneven, shift_by({1e5, -1e5}));
  CHECK(centroid_of(far).x - 1e5 == Approx(centroid_of(uneven).x).margin(1e-9));
  Path holed = square(4);  // a hole weighs against it
  holed.append(reversed(square(2)));
  CHECK(centroid_of(holed).x == Approx((16 * 2 - 4 * 1) / 12.0).epsilon(1e-14));
  CHECK(centroid_of(Path{}).x == bounds_of(Path{}).centre().x);
}

TEST_CASE("the finer the chords, the nearer their area to the curve's, never beyond what Wang's bound allows") {
  const Path round = circle({0, 0}, 10);
  double last = 1e300;
  for (double tolerance = 1; tolerance > 1e-6; tolerance /= 10) {
    const double miss = area_of(round) - area_of(polygons_of(round, tolerance));
    CHECK(miss >= 0);
    CHECK(miss < 2 * std::numbers::pi * 10 * tolerance);
    CHECK(miss < last);
    last = miss;
  }
}

TEST_CASE("no point of a curve lies further from its chords than the tolerance") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-50, 50);
  const auto any = [&] { return Point{place(random), place(random)}; };
  for (int i = 0; i < 300; ++i) {
    Path path;
    const Point a = any(), b = any(), c = any(), d = any();
    path.move_to(a);
    path.cubic_to(b, c, d);
    const Polygon chords = flatten(path, 0.01).front().points;
    const int n = static_cast<int>(chords.size()) - 1;
    for (int k = 0; k < 10 * n; ++k) {
      const double t = (k + 0.5) / (10 * n), u = 1 - t;
      const Point p = u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
      const Point from = chords[static_cast<std::size_t>(k / 10)],
                  along = chords[static_cast<std::size_t>(k / 10) + 1] - from;
      REQUIRE(std::abs(cross(along, p - from)) <= 0.01 * length(along) * (1 + 1e-9));
    }
  }
}

TEST_CASE("a tolerance that is no size is refused") {
  const Point control[] = {{0, 0}, {1, 1}, {2, 0}};
  CHECK_THROWS(wang_segments(control, 0));
  CHECK_THROWS(wang_segments(control, std::nan("")));
  CHECK(wang_segments(control, 1e-300) == segment_limit);
}

TEST_CASE("turning a path round twice gives the path") {
  Path path = circle({3, 4}, 2);
  path.append(square(1));
  const Path twice = reversed(reversed(path));
  CHECK(twice == path);
  CHECK(bounds_of(reversed(path)) == bounds_of(path));
}

TEST_CASE("transforms follow one another") {
  const Transform both = then(quarter_turn(), shift_by({10, 0}));
  CHECK(both({1, 0}) == Point{10, 1});
  CHECK(both({0, 1}) == Point{9, 0});
  CHECK(then(scale_by(2), both).determinant() == 4);
}

}  // namespace ordinatio::path_test
