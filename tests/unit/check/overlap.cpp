// Ink over ink: told by contours, and held against the areas that two fill rules give.
#include "check/overlap.h"

#include <catch2/catch.hpp>
#include <random>

namespace ordinatio::overlap_test {

namespace {

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

Path hole(double left, double bottom, double right, double top) { return reversed(box(left, bottom, right, top)); }

/// Four curves around a middle.
Path round(double x, double y, double radius) {
  const double bend = 0.5522847498 * radius;  // a quarter circle as a cubic, to 0.03 % of the radius
  Path path;
  path.move_to({x + radius, y});
  path.cubic_to({x + radius, y + bend}, {x + bend, y + radius}, {x, y + radius});
  path.cubic_to({x - bend, y + radius}, {x - radius, y + bend}, {x - radius, y});
  path.cubic_to({x - radius, y - bend}, {x - bend, y - radius}, {x, y - radius});
  path.cubic_to({x + bend, y - radius}, {x + radius, y - bend}, {x + radius, y});
  path.close();
  return path;
}

Path together(std::initializer_list<Path> paths) {
  Path all;
  for (const Path& path : paths) all.append(path);
  return all;
}

Overlap overlap_in(const Path& filled, const Path& followed = {}) {
  std::vector<ContourShape> shapes;
  append_shapes(shapes, filled, true);
  append_shapes(shapes, followed, false);
  return overlap_of(shapes);
}

double disputed(const Path& path) {
  const Polygons polygons = polygons_of(path, 0.002);
  return std::abs(area_of(weld(polygons, 1e-5)) - area_of(weld(polygons, 1e-5, FillRule::even_odd)));
}

}  // namespace

TEST_CASE("fill rules agree about ink that lies apart, touches, or holds a hole") {
  const Path ring = together({box(0, 0, 60, 40), hole(1, 1, 59, 39)});
  for (const Path& path :
       {ring, together({ring, box(10, 10, 20, 20)}), together({ring, round(30, 20, 8), reversed(round(30, 20, 5))}),
        together({box(0, 0, 10, 10), box(10, 0, 20, 10)}), together({box(0, 0, 10, 10), box(10, 10, 20, 20)}),
        together({box(0, 0, 10, 10), hole(2, 2, 8, 8), box(3, 3, 7, 7), hole(4, 4, 6, 6)})}) {
    CHECK(overlap_in(path).area == Approx(0).margin(1e-6));
    CHECK(disputed(path) == Approx(0).margin(1e-6));
  }
}

TEST_CASE("ink over ink is told by its area") {
  const Path ring = together({box(0, 0, 60, 40), hole(1, 1, 59, 39)});
  CHECK(overlap_in(together({box(0, 0, 10, 10), box(8, 8, 18, 18)})).area == Approx(4));
  CHECK(overlap_in(together({box(0, 0, 10, 10), box(2, 2, 4, 4)})).area == Approx(4));
  CHECK(overlap_in(together({box(0, 0, 10, 10), box(0, 0, 10, 10)})).area == Approx(100));
  CHECK(overlap_in(together({ring, box(20, -2, 24, 20)})).area == Approx(4));
  CHECK(overlap_in(together({round(10, 10, 5), round(14, 10, 5)})).area ==
        Approx(disputed(together({round(10, 10, 5), round(14, 10, 5)}))));
  CHECK(overlap_in(together({ring, round(57, 20, 3)})).area > 1);
}

TEST_CASE("a followed line may pass beside ink and around it, not through it") {
  const Path ink = box(10, 10, 20, 20);
  CHECK(overlap_in(ink, box(5, 5, 25, 25)).depth == 0);
  CHECK(overlap_in(ink, box(10, 10, 20, 20)).depth < 0.05);
  CHECK(overlap_in(ink, box(0, 5, 13, 25)).depth == Approx(3).margin(0.5));
  CHECK(overlap_in(ink, box(12, 12, 18, 18)).depth == Approx(2));
  CHECK(overlap_in({}, together({box(0, 0, 10, 10), box(2, 2, 8, 8)})).depth == 0);
  CHECK(overlap_in({}, together({box(0, 0, 10, 10), box(6, 3, 18, 7)})).depth > 2);
}

TEST_CASE("what contours tell is what the areas tell, on shapes by lot") {
  const unsigned seed = 63;
  INFO("seed " << seed);
  std::mt19937 chance(seed);
  const auto between = [&](double least, double most) { return std::uniform_real_distribution(least, most)(chance); };
  int disputes = 0;
  for (int trial = 0; trial < 400; ++trial) {
    Path path;
    for (int count = 2 + static_cast<int>(chance() % 5); count > 0; --count) {
      const double x = between(0, 60), y = between(0, 40), size = between(1, 9);
      path.append(chance() % 2 == 0 ? round(x, y, size) : box(x, y, x + size, y + between(1, 9)));
      if (chance() % 3 == 0) path.append(reversed(round(x, y, size / 2)));
    }
    INFO("trial " << trial);
    const double wanted = disputed(path);
    CHECK(overlap_in(path).area == Approx(wanted).epsilon(1e-3).margin(1e-3));
    disputes += wanted > 0.1;
  }
  CHECK(disputes > 50);
  CHECK(disputes < 350);
}

}  // namespace ordinatio::overlap_test
