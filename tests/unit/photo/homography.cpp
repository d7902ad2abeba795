#include "photo/homography.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

namespace ordinatio::homography_test {

namespace {

constexpr unsigned seed = 1797;

const std::array<Point, 4> square{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};

double farthest(const Homography& map, std::span<const Point> from, std::span<const Point> to) {
  double most = 0;
  for (std::size_t i = 0; i < from.size(); ++i) most = std::max(most, length(map(from[i]) - to[i]));
  return most;
}

}  // namespace

// P. Heckbert, "Fundamentals of texture mapping and image warping" (1989), 2.2.3: of the unit square onto a quadrilateral.
TEST_CASE("four pairs give the map that the closed form gives for a square") {
  std::mt19937 random(seed);
  INFO("seed " << seed);
  std::uniform_real_distribution<double> by(-0.3, 0.3);
  for (int i = 0; i < 200; ++i) {
    std::array<Point, 4> q;
    for (std::size_t k = 0; k < 4; ++k) q[k] = 1000 * (square[k] + Point{by(random), by(random)});
    const Point d1 = q[1] - q[2], d2 = q[3] - q[2], sum = q[0] - q[1] + q[2] - q[3];
    const double g = cross(sum, d2) / cross(d1, d2), h = cross(d1, sum) / cross(d1, d2);
    const std::array<double, 9> expected{q[1].x - q[0].x + g * q[1].x,
                                         q[3].x - q[0].x + h * q[3].x,
                                         q[0].x,
                                         q[1].y - q[0].y + g * q[1].y,
                                         q[3].y - q[0].y + h * q[3].y,
                                         q[0].y,
                                         g,
                                         h,
                                         1};
    const auto map = homography_between(square, q);
    REQUIRE(map);
    for (std::size_t k = 0; k < 9; ++k) CHECK(map->h[k] / map->h[8] == Approx(expected[k]).epsilon(1e-9).margin(1e-9));
  }
}

TEST_CASE("more pairs than four are met too, and the way back leads back") {
  std::mt19937 random(seed);
  INFO("seed " << seed);
  std::uniform_real_distribution<double> place(0, 500), entry(-1, 1);
  for (int i = 0; i < 100; ++i) {
    const Homography truth{{1 + entry(random), entry(random), 300, entry(random) / 2, -2 + entry(random), 700,
                            entry(random) / 2000, entry(random) / 2000, 1}};
    std::vector<Point> from, to;
    for (int k = 0; k < 4 + i % 6; ++k) {
      from.push_back({place(random), place(random)});
      to.push_back(truth(from.back()));
    }
    const auto map = homography_between(from, to);
    if (!map) continue;  // three nearly in line
    CHECK(farthest(*map, from, to) < 1e-6);
    const auto back = inverse_of(*map);
    REQUIRE(back);
    CHECK(farthest(*back, to, from) < 1e-6);
    for (const Point p : from) CHECK(map->depth(p) > 0);
  }
}

TEST_CASE("noise is spread over many pairs: the map is nearer to the truth than any one of them") {
  const Homography truth{{4, 0.3, 100, 0.2, -4, 900, 0.0004, 0.0002, 1}};
  std::mt19937 random(seed);
  INFO("seed " << seed);
  std::normal_distribution<double> noise(0, 0.5);
  std::vector<Point> from, to;
  for (int i = 0; i < 400; ++i) {
    from.push_back({10.0 * (i % 20), 10.0 * (i / 20)});
    to.push_back(truth(from.back()) + Point{noise(random), noise(random)});
  }
  const auto map = homography_between(from, to);
  REQUIRE(map);
  for (const Point p : from) CHECK(length((*map)(p)-truth(p)) < 0.3);
}

TEST_CASE("no map is made of points that settle none") {
  const double nan = std::nan(""), infinity = std::numeric_limits<double>::infinity();
  const std::array<Point, 4> in_line{{{0, 0}, {1, 1}, {2, 2}, {0, 1}}}, twice{{{0, 0}, {0, 0}, {1, 1}, {0, 1}}};
  const std::array<Point, 4> one{{{3, 3}, {3, 3}, {3, 3}, {3, 3}}};
  for (const auto& bad : {in_line, twice, one}) {
    CHECK_FALSE(homography_between(bad, square));
    CHECK_FALSE(homography_between(square, bad));
  }
  for (const auto& bad : {in_line, twice}) CHECK_FALSE(homography_between(bad, bad));  // of many maps that do
  CHECK_FALSE(homography_between(square, std::array<Point, 4>{{{0, 0}, {nan, 0}, {1, 1}, {0, 1}}}));
  CHECK_FALSE(homography_between(square, std::array<Point, 4>{{{0, 0}, {infinity, 0}, {1, 1}, {0, 1}}}));
  CHECK_FALSE(homography_between(std::span(square).first(3), std::span(square).first(3)));
  CHECK_FALSE(homography_between(square, std::span(square).first(3)));
  CHECK_FALSE(inverse_of(Homography{{1, 1, 0, 1, 1, 0, 0, 0, 1}}));
}

TEST_CASE("the slope is what a small step becomes") {
  const Homography map{{4, 0.3, 100, 0.2, -4, 900, 0.004, 0.002, 1}};
  const Point p{80, 50};
  const Transform slope = slope_at(map, p);
  for (const Point step : {Point{1e-6, 0}, Point{0, 1e-6}}) {
    const Point moved = map(p + step) - map(p);
    CHECK(moved.x == Approx(slope(step).x).epsilon(1e-5));
    CHECK(moved.y == Approx(slope(step).y).epsilon(1e-5));
  }
}

}  // namespace ordinatio::homography_test
