#include "check/ink.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "base/base.h"
#include "check/cubic.h"
#include "check/decimal.h"

namespace ordinatio::ink_test {

namespace {

/// The curve in many short lines: slow, and nothing that could be wrong twice.
Path finely(const Path& path, int steps) {
  Path fine;
  follow(
      path, [&](Point p) { fine.move_to(p); }, [&](Point, Point to) { fine.line_to(to); },
      [&](const Cubic& cubic) {
        for (int i = 1; i <= steps; ++i) fine.line_to(cubic.at(double(i) / steps));
      },
      [&](Point, Point, bool closed) {
        if (closed) fine.close();
      });
  return fine;
}

Path random_blob(std::mt19937& random) {
  std::uniform_real_distribution<double> mm(0, 100);
  const auto point = [&] {
    const double x = mm(random);
    return Point{x, mm(random)};
  };
  Path path;
  path.move_to(point());
  const Point control = point(), first = point(), second = point();
  path.quad_to(control, point());
  path.cubic_to(first, second, point());
  path.line_to(point());
  path.close();
  return path;
}

}  // namespace

TEST_CASE("area, length and bounds of curves are those of very many chords") {
  std::mt19937 random(20261125);
  for (int i = 0; i < 200; ++i) {
    const Path path = random_blob(random);
    const Ink exact = measure(path, Measure::area_and_length),
              fine = measure(finely(path, 4000), Measure::area_and_length);
    INFO("blob " << i);
    // Chords of 1/4000 of a curve: errors fall with the square of that.
    CHECK(exact.area == Approx(fine.area).margin(1e-2));
    CHECK(exact.length == Approx(fine.length).epsilon(1e-4));
    CHECK(exact.bounds.left == Approx(fine.bounds.left).margin(1e-4));
    CHECK(exact.bounds.bottom == Approx(fine.bounds.bottom).margin(1e-4));
    CHECK(exact.bounds.right == Approx(fine.bounds.right).margin(1e-4));
    CHECK(exact.bounds.top == Approx(fine.bounds.top).margin(1e-4));
    CHECK(exact.area == Approx(area_of(path)).margin(1e-9));  // geometry's, written apart from ours
  }
}

TEST_CASE("known figures: a parabola's segment is two thirds of its box, a ring is 2πr long") {
  Path parabola;
  parabola.move_to({0, 0});
  parabola.quad_to({5, 8}, {10, 0});  // apex at y = 4
  parabola.close();
  CHECK(measure(parabola, Measure::area).area == Approx(-2.0 / 3 * 10 * 4));

  Path ring;
  const double k = 4.0 / 3 * (std::numbers::sqrt2 - 1);
  ring.move_to({1, 0});
  ring.cubic_to({1, k}, {k, 1}, {0, 1});
  ring.cubic_to({-k, 1}, {-1, k}, {-1, 0});
  ring.cubic_to({-1, -k}, {-k, -1}, {0, -1});
  ring.cubic_to({k, -1}, {1, -k}, {1, 0});
  ring.close();
  // Four cubics lie up to 2.7e-4 outside the circle.
  CHECK(measure(ring, Measure::area_and_length).length == Approx(2 * std::numbers::pi).epsilon(3e-4));
  CHECK(measure(ring, Measure::area_and_length).area == Approx(std::numbers::pi).epsilon(5e-4));
  CHECK(measure(ring, Measure::area).bounds.top == Approx(1).margin(1e-12));
}

TEST_CASE("only closed contours have an area, all have a length") {
  Path path;
  path.move_to({0, 0});
  path.line_to({3, 0});
  path.line_to({3, 4});
  CHECK(measure(path, Measure::area_and_length).area == 0);
  CHECK(measure(path, Measure::area_and_length).length == Approx(7));
  path.close();
  CHECK(measure(path, Measure::area_and_length).area == Approx(6));
  CHECK(measure(path, Measure::area_and_length).length == Approx(12));
}

TEST_CASE("chords keep the tolerance and are as few as Wang's bound allows") {
  std::mt19937 random(7);
  for (int i = 0; i < 50; ++i) {
    const Path path = random_blob(random);
    for (const double tolerance : {1.0, 0.1, 0.01}) {
      const Path chords = chords_of(path, tolerance);
      follow(
          path, [](Point) {}, [](Point, Point) {},
          [&](const Cubic& cubic) {
            const int count = chord_count(cubic, tolerance);
            for (int j = 0; j < count; ++j) {
              const Point from = cubic.at(double(j) / count), to = cubic.at(double(j + 1) / count);
              const Point middle = cubic.at((j + 0.5) / count);
              CHECK(length(middle - 0.5 * (from + to)) <= tolerance * (1 + 1e-9));
            }
          },
          [](Point, Point, bool) {});
      CHECK(chords.verbs().size() > path.verbs().size());
    }
  }
}

TEST_CASE("a clear area moves with its blank: turned, mirrored, scaled") {
  const ConvexRegion box{{{{-1, 0}, -6}, {{0, -1}, -6}, {{1, 0}, 54}, {{0, 1}, 34}}};
  for (const Transform& by : {Transform{0, 1, -1, 0, 140, 10}, Transform{-1, 0, 0, 1, 70, 10},
                              Transform{2, 0, 0, 2, 5, 5}, Transform{0.6, 0.8, -0.8, 0.6, 20, 0}}) {
    const ConvexRegion there = moved(box, by);
    for (const Point p : {Point{6, 6}, {54, 34}, {30, 20}, {5, 20}, {60, 20}, {30, 50}}) {
      Path dot;
      dot.move_to(by(p));
      const double scale = std::sqrt(std::abs(by.determinant()));
      Path plain;
      plain.move_to(p);
      CHECK(excess(dot, measure(dot, Measure::area).bounds, there, 0) ==
            Approx(scale * excess(plain, measure(plain, Measure::area).bounds, box, 0)).margin(1e-9));
    }
  }
}

TEST_CASE("plain decimals are read as the nearest double, all else is refused") {
  std::mt19937_64 random(3);
  for (int i = 0; i < 20'000; ++i) {
    std::string text = std::to_string(random() % 100'000) + "." + std::to_string(random() % 1'000'000);
    if (i % 2 == 0) text = "-" + text;
    double value = 0;
    REQUIRE(read_decimal(text, value));
    CHECK(value == *parse_number(text));
  }
  for (const char* text : {"", "-", ".", "1.", "1e3", "1E3", "+1", "nan", "inf", "-inf", "0x1", "1,5", " 1", "1 ",
                           "--1", "1234567890123456", "1.2.3"}) {
    double value = 0;
    INFO(text);
    CHECK_FALSE(read_decimal(text, value));
  }
}

}  // namespace ordinatio::ink_test
