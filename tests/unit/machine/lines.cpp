// Paths that are followed, against the trapezoid's textbook formulas.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "machine/profile.h"
#include "rectangles.h"

namespace ordinatio::lines_test {

TEST_CASE("from rest to rest: the trapezoid where the speed is reached, else the triangle") {
  // v = 100, a = 1000: reached from v²/a = 10 mm on.
  CHECK(rest_to_rest(50, 100, 1000) == Approx(50.0 / 100 + 100.0 / 1000));
  CHECK(rest_to_rest(10, 100, 1000) == Approx(0.2));
  CHECK(rest_to_rest(2.5, 100, 1000) == Approx(2 * std::sqrt(2.5 / 1000)));
  CHECK(rest_to_rest(0, 100, 1000) == 0);
}

TEST_CASE("a straight path is one trapezoid, however many points lie on it") {
  const double wanted = 60.0 / 20 + 20.0 / 3000;
  std::vector<Point> points{{0, 0}, {60, 0}};
  CHECK(path_time(points, 20, 3000, 0.05) == Approx(wanted));
  points = {{0, 0}, {1, 0}, {1, 0}, {7, 0}, {7.001, 0}, {60, 0}};
  CHECK(path_time(points, 20, 3000, 0.05) == Approx(wanted).epsilon(1e-6));
  points = {{4, 4}};
  CHECK(path_time(points, 20, 3000, 0.05) == 0);
}

TEST_CASE("a right angle is passed at the speed of the circle that rounds it by so much") {
  // R = δ·sin 45° / (1 − sin 45°), v = √(a·R).
  const double half = std::sqrt(0.5), radius = 0.05 * half / (1 - half), speed = std::sqrt(3000 * radius);
  CHECK(corner_limit({0, 0}, {50, 0}, {50, 50}, 0.05, 3000).speed == Approx(speed));
  CHECK(speed == Approx(19.03).epsilon(1e-3));
  // No faster than the circle that touches short edges in their middle: R = l/2 · tan 45°.
  CHECK(corner_limit({0, 0}, {0.01, 0}, {0.01, 50}, 0.05, 3000).speed == Approx(std::sqrt(3000 * 0.005)));
}

TEST_CASE("a path turns back at rest, goes straight on unhindered, and is slower the sharper it turns") {
  CHECK(corner_limit({0, 0}, {50, 0}, {0, 0}, 0.05, 3000).speed == Approx(0).margin(1e-6));
  CHECK(corner_limit({0, 0}, {50, 0}, {100, 0}, 0.05, 3000).speed > 1e6);
  double last = 1e300;
  for (int degrees = 5; degrees < 180; degrees += 5) {
    const double turn = degrees * M_PI / 180;
    const double speed =
        corner_limit({0, 0}, {50, 0}, {50 + 50 * std::cos(turn), 50 * std::sin(turn)}, 0.05, 3000).speed;
    CHECK(speed < last);
    last = speed;
  }
}

TEST_CASE("along a circle's chords the speed is the circle's own, √(a·R), however fine they are") {
  constexpr double radius = 2, acceleration = 500;  // √1000 = 31.6 mm/s
  for (const int chords : {60, 240, 960}) {
    std::vector<Point> points;
    for (int i = 0; i <= 20 * chords; ++i) {
      const double turn = 2 * M_PI * i / chords;
      points.push_back({radius * std::cos(turn), radius * std::sin(turn)});
    }
    const double way = 20 * chords * 2 * radius * std::sin(M_PI / chords), speed = std::sqrt(acceleration * radius);
    // From rest and to rest, v/a besides.
    CHECK(path_time(points, 1000, acceleration, 0.05) == Approx(way / speed + speed / acceleration).epsilon(0.01));
  }
}

TEST_CASE("edges too short to reach the speed between two corners are triangles between their speeds") {
  // An L of two edges of 1 mm at 100 mm/s, 3,000 mm/s²: from rest up to √(2·a·l) = 77 mm/s, but the corner allows 19.03.
  const double corner = corner_limit({0, 0}, {1, 0}, {1, 1}, 0.05, 3000).speed;
  // Highest speed h on an edge from 0 to c: h² = (2·a·l + c²)/2; time h/a + (h − c)/a.
  const double highest = std::sqrt((2 * 3000 * 1 + corner * corner) / 2);
  const std::vector<Point> points{{0, 0}, {1, 0}, {1, 1}};
  CHECK(path_time(points, 100, 3000, 0.05) == Approx(2 * (highest + highest - corner) / 3000));
}

TEST_CASE("a bend that would let it pass is no faster than it has come to be, nor than it can slow down from") {
  // 0.1 mm, a bend of 10° that allows 40 mm/s, 50 mm: from rest √(2·a·0.1) = 24.5 mm/s are reached, so one trapezoid in all.
  const double turn = M_PI / 18;
  std::vector<Point> points{{0, 0}, {0.1, 0}, {0.1 + 50 * std::cos(turn), 50 * std::sin(turn)}};
  REQUIRE(corner_limit(points[0], points[1], points[2], 0.05, 3000).speed > 40);
  CHECK(path_time(points, 40, 3000, 0.05) == Approx(50.1 / 40 + 40.0 / 3000));
  std::ranges::reverse(points);
  CHECK(path_time(points, 40, 3000, 0.05) == Approx(50.1 / 40 + 40.0 / 3000));
}

TEST_CASE("a scored rectangle is closed, and the way to the next one is travelled") {
  Motion motion = plain_motion();
  motion.corner = 1e-9;  // it stops at each corner
  const double side = 60.0 / 20 + 20.0 / 3000, end = 40.0 / 20 + 20.0 / 3000;
  const SheetTime one = time_of(sheet_of({{0, 0, 60, 40}}, Operation::score), motion);
  CHECK(one.seconds == Approx(2 * side + 2 * end).epsilon(1e-3));
  const SheetTime two = time_of(sheet_of({{0, 0, 60, 40}, {200, 0, 260, 40}}, Operation::score), motion);
  CHECK(two.seconds - 2 * one.seconds == Approx(200.0 / 500 + 500.0 / 3000).epsilon(1e-6));
  CHECK(two.items[1].seconds - two.items[0].seconds == Approx(200.0 / 500 + 500.0 / 3000).epsilon(1e-6));
}

TEST_CASE("each operation has its own speed, one without is told, and the guide is never run") {
  Sheet sheet = sheet_of({{0, 0, 60, 40}, {0, 50, 60, 90}, {0, 100, 60, 140}});
  sheet.parts[1].operation = Operation::cut;
  sheet.parts[2].operation = Operation::guide;
  SheetTime time = time_of(sheet, plain_motion());
  REQUIRE(time.operations.size() == 2);
  CHECK(time.operations[0].operation == Operation::engrave);
  CHECK(time.operations[1].operation == Operation::cut);
  CHECK(time.operations[1].seconds == Approx(200.0 / 5).epsilon(0.01));
  CHECK(time.items[2].seconds == 0);
  Motion motion = plain_motion();
  motion.cut_speed = 0;
  time = time_of(sheet, motion);
  REQUIRE(time.untold.size() == 1);
  CHECK(time.untold.front().operation == Operation::cut);
  CHECK(time.operations.size() == 1);
}

}  // namespace ordinatio::lines_test
