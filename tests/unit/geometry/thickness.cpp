#include "geometry/thickness.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

namespace ordinatio::thickness_test {

namespace {

constexpr unsigned seed = 20;
constexpr double pi = std::numbers::pi;
constexpr double exact = 1e-9;
constexpr double grid = 1e-9;  // of welds: far below what is checked

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

/// Corners on the circle, so that chords lie inside it by at most radius·(1 − cos(π/count)).
Polygon circle(Point centre, double radius, int count = 360) {
  Polygon points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * pi * i / count;
    points.push_back(centre + radius * Point{std::cos(angle), std::sin(angle)});
  }
  return points;
}

Polygons turned(Polygons polygons, double angle) {
  for (Polygon& polygon : polygons) {
    for (Point& p : polygon) {
      p = {p.x * std::cos(angle) - p.y * std::sin(angle), p.x * std::sin(angle) + p.y * std::cos(angle)};
    }
  }
  return polygons;
}

double least(const std::vector<Gauge>& gauges) { return gauges.empty() ? 1e9 : gauges.front().width; }
double thinnest(const Polygons& ink) { return least(thickness_of(ink).strokes); }
double narrowest(const Polygons& ink) { return least(thickness_of(ink).gaps); }

struct Shape {
  const char* name;
  Polygons ink;
  double stroke, gap;  // 1e9: none
  double error;
};

/// A C, or with a bar an e, whose mouth is `mouth` high.
Polygons open_ring(double mouth, bool bar) {
  const Polygons ring = difference({circle({0, 0}, 0.3)}, {circle({0, 0}, 0.2)}, grid);
  Polygons ink = difference(ring, {box(0, -mouth, 1, 0)}, grid);
  if (bar) ink.push_back(box(-0.25, 0, 0.25, 0.06));
  return weld(ink, grid);
}

std::vector<Shape> shapes() {
  const double none = 1e9, lens = 2 * std::sqrt(0.2 * 0.2 - 0.19 * 0.19);
  return {
      {"a bar", {box(0, 0, 0.08, 0.6)}, 0.08, none, exact},
      {"a square is as thick as it is wide", {box(0, 0, 0.1, 0.1)}, 0.1, none, exact},
      {"a ring", difference({circle({0, 0}, 0.3)}, {circle({0, 0}, 0.2)}, grid), 0.1, 0.4, 1e-4},
      {"a disc", {circle({0, 0}, 0.2)}, 0.4, none, 1e-4},
      {"a cross", weld({box(-0.3, -0.035, 0.3, 0.035), box(-0.025, -0.3, 0.025, 0.3)}, grid), 0.05, none, 1e-6},
      {"two discs that overlap", weld({circle({-0.19, 0}, 0.2), circle({0.19, 0}, 0.2)}, grid), lens, none, 1e-4},
      {"a dumbbell", weld({box(0, 0, 0.2, 0.2), box(0.15, 0.1, 0.55, 0.13), box(0.5, 0, 0.7, 0.2)}, grid), 0.03, none,
       1e-6},
      {"a C", open_ring(0.05, false), 0.1, 0.05, 1e-4},
      {"an e", open_ring(0.05, true), 0.06, 0.05, 1e-4},
      {"a dot over a stem", {box(0, 0, 0.1, 0.5), box(-0.01, 0.57, 0.11, 0.69)}, 0.1, 0.07, exact},
      {"an H, whose counters are slots",
       weld({box(0, 0, 0.1, 0.7), box(0.28, 0, 0.38, 0.7), box(0.05, 0.3, 0.3, 0.38)}, grid), 0.08, 0.18, 1e-6},
      {"a serif thinner than the stem", weld({box(0, 0, 0.12, 0.6), box(-0.1, 0, 0.22, 0.03)}, grid), 0.03, none, 1e-6},
      {"a triangle is as thick as its largest disc",
       {{{0, 0}, {0.6, 0}, {0.3, 0.3 * std::sqrt(3)}}},
       0.6 / std::sqrt(3),
       none,
       1e-4},
  };
}

}  // namespace

TEST_CASE("strokes and gaps of known width are told at any turn") {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> angle(0, 2 * pi);
  for (const Shape& shape : shapes()) {
    INFO(shape.name << ", seed " << seed);
    for (int round = 0; round < 10; ++round) {
      const Polygons ink = round == 0 ? shape.ink : turned(shape.ink, angle(random));
      CHECK(thinnest(ink) == Approx(shape.stroke).margin(shape.error));
      CHECK(narrowest(ink) == Approx(shape.gap).margin(shape.error));
    }
  }
}

TEST_CASE("widths grow with the shape, and a mirror changes none") {
  for (const Shape& shape : shapes()) {
    INFO(shape.name);
    Polygons large = shape.ink, mirrored = shape.ink;
    for (Polygon& polygon : large) {
      for (Point& p : polygon) p = 7 * p;
    }
    for (Polygon& polygon : mirrored) {
      for (Point& p : polygon) p.x = -p.x;
      std::ranges::reverse(polygon);
    }
    GaugeRules rules;
    for (double* distance : {&rules.chord_error, &rules.step, &rules.touch, &rules.tip_depth}) *distance *= 7;
    CHECK(least(thickness_of(large, rules).strokes) == Approx(7 * thinnest(shape.ink)).epsilon(1e-3));
    CHECK(thinnest(mirrored) == Approx(thinnest(shape.ink)).epsilon(1e-3));
    CHECK(narrowest(mirrored) == Approx(narrowest(shape.ink)).epsilon(1e-3));
  }
}

TEST_CASE("a taper is as thin as the largest spot that comes within a tip of its end") {
  const GaugeRules rules;
  for (const double degrees : {4.0, 6.0, 10.0, 16.0, 24.0}) {
    INFO(degrees << " degrees");
    const double half = degrees / 2 * pi / 180, sine = std::sin(half);
    // A disc of radius r in the wedge has its centre r / sin from the end, which it misses by r / sin − r.
    const double expected = 2 * rules.tip_depth * sine / (1 - sine);
    for (const double turn : {0.0, 0.7, 2.5}) {
      const double told = thinnest(turned({{{0, 0}, {1, -std::tan(half)}, {1, std::tan(half)}}}, turn));
      CHECK(told <= expected * (1 + 1e-9));
      CHECK(told >= expected * (1 - 2e-3));
    }
  }
}

TEST_CASE("a corner of more than 30 degrees is no thin stroke") {
  const auto kite = [](double degrees) {
    const double half = degrees / 2 * pi / 180;
    return thinnest({{{0, 0}, {0.6, -0.6 * std::tan(half)}, {0.6, 0.6 * std::tan(half)}}});
  };
  CHECK(kite(34) > 0.2);
  CHECK(kite(26) < 0.03);
}

TEST_CASE("a short end is a tip and a long one a stroke") {
  const auto with_end = [](double reach) {
    return thinnest(weld({box(0, 0, 0.2, 0.4), box(0.1, 0.2, 0.2 + reach, 0.22)}, grid));
  };
  CHECK(with_end(0.03) == Approx(0.2).margin(1e-6));
  CHECK(with_end(0.08) == Approx(0.02).margin(1e-6));
}

TEST_CASE("a stroke that grazes another is not the thinnest, a hairline between them is") {
  const auto bridged = [](double between) {
    return thinnest(
        weld({box(0, 0, 0.2, 0.2), box(0.1, 0.1, 0.3, 0.105), box(0.2 + between, 0, 0.4 + between, 0.2)}, grid));
  };
  CHECK(bridged(0.02) == Approx(0.2).margin(1e-6));
  CHECK(bridged(0.1) == Approx(0.005).margin(1e-6));
}

TEST_CASE("edges that meet leave no gap and no stroke of no width") {
  const Polygons abutting{box(0, 0, 0.1, 0.5), box(0.1, 0, 0.2, 0.5), box(0.2, 0.5, 0.3, 0.7)};
  CHECK(thinnest(abutting) >= 0.1 - exact);
  CHECK(narrowest(abutting) == 1e9);
}

TEST_CASE("only what is centred in the zone is told") {
  const Polygons ink = weld({box(0, 0, 0.2, 0.2), box(0.15, 0.1, 0.55, 0.13), box(0.5, 0, 0.7, 0.2),
                             box(0.65, 0.1, 1.05, 0.15), box(1, 0, 1.2, 0.2)},
                            grid);
  const Bounds right{0.75, 0, 0.95, 0.3};
  const Thickness told = thickness_of(ink, {}, &right);
  CHECK(least(told.strokes) == Approx(0.05).margin(1e-6));
  for (const Gauge& gauge : told.strokes) CHECK((gauge.at.x >= right.left && gauge.at.x <= right.right));
  CHECK(thinnest(ink) == Approx(0.03).margin(1e-6));
}

namespace {

double distance_to(const Polygons& polygons, Point p) {
  double distance = 1e9;
  for (const Polygon& polygon : polygons) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], way = polygon[(i + 1) % polygon.size()] - a;
      const double t = std::clamp(dot(p - a, way) / dot(way, way), 0.0, 1.0);
      distance = std::min(distance, length(p - a - t * way));
    }
  }
  return distance;
}

bool in_ink(const Polygons& polygons, Point p) {
  bool inside = false;
  for (const Polygon& polygon : polygons) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
    }
  }
  return inside;
}

}  // namespace

TEST_CASE("every disc that is told lies in the ink, or in a gap, and touches the outline") {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> place(0, 1), size(0.02, 0.2), angle(0, pi);
  const GaugeRules rules;
  for (int round = 0; round < 60; ++round) {
    INFO("seed " << seed << ", round " << round);
    Polygons bars;
    for (int i = 0; i < 6; ++i) {
      const double width = size(random), height = 3 * size(random);
      Polygon bar = turned({box(-width / 2, -height / 2, width / 2, height / 2)}, angle(random))[0];
      const Point at{place(random), place(random)};
      for (Point& p : bar) p = p + at;
      bars.push_back(bar);
    }
    const Polygons ink = weld(bars, grid);
    const Thickness told = thickness_of(ink, rules);
    REQUIRE_FALSE(told.strokes.empty());
    for (const Gauge& gauge : told.strokes) {
      CHECK(in_ink(ink, gauge.at));
      CHECK(distance_to(ink, gauge.at) == Approx(gauge.width / 2).margin(3 * rules.chord_error).epsilon(1e-3));
    }
    for (const Gauge& gauge : told.gaps) {
      CHECK_FALSE(in_ink(ink, gauge.at));
      CHECK(distance_to(ink, gauge.at) == Approx(gauge.width / 2).margin(3 * rules.chord_error).epsilon(1e-3));
    }
  }
}

}  // namespace ordinatio::thickness_test
