#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "geometry/geometry.h"

using namespace ordinatio;

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
