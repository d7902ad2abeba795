#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "fit/setting_work.h"
#include "hull_copy.h"

namespace ordinatio::parting_test {

namespace {

constexpr double any_place = -1;  // off_axis_gain: the axis does not matter
constexpr double on_axis_only = 1e9;

double uniform(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

Polygon disc(Point middle, double radius, int corners) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    polygon.push_back(middle + radius * Point{std::cos(angle), std::sin(angle)});
  }
  return polygon;
}

/// Lines of lettering one under the other, with as many corners as lines have, on a plaque with things of 3 to 40 edges.
struct Plaque {
  std::vector<ConvexHull> lines;
  ClearArea area;
  Wish wish;
};

Plaque random_plaque(std::mt19937& random, int lines, int obstacles) {
  Plaque plaque;
  for (int i = 0; i < lines; ++i) {
    const double half = uniform(random, 1, 5);
    std::vector<Point> points(40);
    for (Point& p : points) p = {uniform(random, -half, half), -1.25 * i + uniform(random, -0.2, 0.75)};
    plaque.lines.push_back(hull_of(std::move(points)));
  }
  plaque.area.region = region_of(*inset(rectangle_outline(152.4, 101.6, Corner::rounded, 12), 5));
  for (int i = 0; i < obstacles; ++i) {
    const Point middle{uniform(random, 0, 152), uniform(random, 0, 101)};
    plaque.area.obstacles.push_back({disc(middle, uniform(random, 3, 15), static_cast<int>(uniform(random, 3, 41)))});
  }
  plaque.wish = {{0, -0.625 * (lines - 1) + 0.35}, {76.2, 50.8}, 40, 0.1};
  return plaque;
}

double size_of(const Plaque& plaque, double gain) {
  Wish wish = plaque.wish;
  wish.off_axis_gain = gain;
  const auto placement = largest_copy(plaque.lines, plaque.area, wish);
  return placement ? placement->size : 0;
}

Polygon placed_polygon(const ConvexHull& line, const Placement& placement) {
  Polygon polygon;
  for (const Point p : line.vertices) polygon.push_back(placement(p));
  return polygon;
}

/// mm; how deep the widest overlap of a placed line and an obstacle is, by edges' lines; ≤ 0 when all are parted.
double overlap_of(const Plaque& plaque, const Placement& placement) {
  double most = -1e300;
  for (const ConvexHull& line : plaque.lines) {
    const ConvexHull there{placed_polygon(line, placement)};
    for (const ConvexHull& obstacle : plaque.area.obstacles) {
      double least = 1e300;
      for (const HalfPlane& edge : region_of(obstacle.vertices).edges) {
        least = std::min(least, edge.offset + support_of(there, {-edge.normal.x, -edge.normal.y}));
      }
      for (const HalfPlane& edge : region_of(there.vertices).edges) {
        least = std::min(least, edge.offset + support_of(obstacle, {-edge.normal.x, -edge.normal.y}));
      }
      most = std::max(most, least);
    }
  }
  return most;
}

double outside_of(const Plaque& plaque, const Placement& placement) {
  double most = -1e300;
  for (const ConvexHull& line : plaque.lines) {
    for (const Point p : line.vertices) most = std::max(most, distance_outside(plaque.area.region, placement(p)));
  }
  return most;
}

}  // namespace

TEST_CASE("without obstacles, or with none in the way, the fit is the convex one") {
  std::mt19937 random(1);
  for (int round = 0; round < 100; ++round) {
    Plaque plaque = random_plaque(random, 3, 0);
    std::vector<Point> all;
    for (const ConvexHull& line : plaque.lines) all.insert(all.end(), line.vertices.begin(), line.vertices.end());
    const Placement convex = *largest_copy(hull_of(all), plaque.area.region, plaque.wish);
    const Placement parts = *largest_copy(plaque.lines, plaque.area, plaque.wish);
    CHECK((parts.size == convex.size && parts.shift == convex.shift));
    // Outside the region, and beyond what the copy comes to.
    plaque.area.obstacles = {{disc({-30, 50}, 20, 12)}, {disc({200, 300}, 90, 40)}, {box(-10, 0, 5, 101)}};
    const Placement beside = *largest_copy(plaque.lines, plaque.area, plaque.wish);
    CHECK(beside.size == Approx(convex.size).epsilon(1e-10));
    CHECK(length(beside.shift - convex.shift) < 1e-6);
  }
}

TEST_CASE("ink lies in the region and never in an obstacle") {
  const unsigned seed = 2026;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 300; ++round) {
    INFO("round " << round);
    const Plaque plaque = random_plaque(random, 1 + round % 5, 1 + round % 4);
    const auto placement = largest_copy(plaque.lines, plaque.area, plaque.wish);
    if (!placement) continue;
    REQUIRE(outside_of(plaque, *placement) <= 1e-9);
    REQUIRE(overlap_of(plaque, *placement) <= 1e-9);
    for (const ConvexHull& line : plaque.lines) {
      for (const ConvexHull& obstacle : plaque.area.obstacles) {
        const Polygons common = intersection({placed_polygon(line, *placement)}, {obstacle.vertices}, 1e-7);
        REQUIRE(area_of(common) <= 1e-4);  // mm²: the grid's rounding along edges that touch
      }
    }
  }
}

TEST_CASE("no place of the same size is nearer to the axis, or as near and nearer to the middle") {
  std::mt19937 random(2);
  for (int round = 0; round < 60; ++round) {
    INFO("round " << round);
    Plaque plaque = random_plaque(random, 1 + round % 3, 1 + round % 4);
    plaque.wish.largest = uniform(random, 5, 14);
    plaque.wish.target.x = uniform(random, 30, 120);
    const auto found = largest_copy(plaque.lines, plaque.area, plaque.wish);
    if (!found) continue;
    const Point away = (*found)(plaque.wish.anchor) - plaque.wish.target;
    for (int i = 0; i < 3000; ++i) {
      const double nearer = 1e-6, size = found->size * (1 - 1e-9);
      // Anywhere nearer to the axis; every second time on the found line, nearer to the middle.
      const double x = i % 2 == 0 ? uniform(random, -1, 1) * (std::abs(away.x) - nearer) : away.x;
      const double y = i % 2 == 0 ? uniform(random, -50, 50) : uniform(random, -1, 1) * (std::abs(away.y) - nearer);
      if (i % 2 == 0 ? std::abs(away.x) <= nearer : std::abs(away.y) <= nearer) continue;
      const Placement other{size, plaque.wish.target + Point{x, y} - size * plaque.wish.anchor};
      REQUIRE((outside_of(plaque, other) > 0 || overlap_of(plaque, other) > 0));
    }
  }
}

TEST_CASE("the order of obstacles and of lines does not matter") {
  std::mt19937 random(3);
  for (int round = 0; round < 150; ++round) {
    Plaque plaque = random_plaque(random, 1 + round % 4, 2 + round % 4);
    const double free = size_of(plaque, any_place), held = size_of(plaque, on_axis_only);
    for (int again = 0; again < 2; ++again) {
      std::shuffle(plaque.area.obstacles.begin(), plaque.area.obstacles.end(), random);
      std::shuffle(plaque.lines.begin(), plaque.lines.end(), random);
      REQUIRE(size_of(plaque, any_place) == Approx(free).epsilon(1e-12));
      REQUIRE(size_of(plaque, on_axis_only) == Approx(held).epsilon(1e-12));
    }
  }
}

TEST_CASE("scaling, turning and mirroring plaque and lines scales, turns and mirrors the fit") {
  std::mt19937 random(4);
  const auto changed = [](const Plaque& plaque, auto map, double scale, bool mirrors) {
    const auto all = [&](Polygon polygon, double by) {
      for (Point& p : polygon) p = by * map(p);
      if (mirrors) std::ranges::reverse(polygon);
      return polygon;
    };
    Plaque other = plaque;
    for (ConvexHull& line : other.lines) line.vertices = all(line.vertices, 1);
    for (ConvexHull& obstacle : other.area.obstacles) obstacle.vertices = all(obstacle.vertices, scale);
    other.area.region = region_of(all(polygon_of(plaque.area.region), scale));
    other.wish.anchor = map(plaque.wish.anchor);
    other.wish.target = scale * map(plaque.wish.target);
    other.wish.largest *= scale;
    return other;
  };
  for (int round = 0; round < 100; ++round) {
    const Plaque plaque = random_plaque(random, 1 + round % 3, 1 + round % 4);
    const double free = size_of(plaque, any_place), held = size_of(plaque, on_axis_only);
    const auto turn = [](Point p) { return Point{0.6 * p.x - 0.8 * p.y, 0.8 * p.x + 0.6 * p.y}; };
    REQUIRE(size_of(changed(plaque, turn, 1, false), any_place) == Approx(free).epsilon(1e-9));
    const auto mirror = [](Point p) { return Point{-p.x, p.y}; };
    REQUIRE(size_of(changed(plaque, mirror, 1, true), any_place) == Approx(free).epsilon(1e-9));
    REQUIRE(size_of(changed(plaque, mirror, 1, true), on_axis_only) == Approx(held).epsilon(1e-9));
    REQUIRE(size_of(changed(
                        plaque, [](Point p) { return p; }, 3.5, false),
                    any_place) == Approx(3.5 * free).epsilon(1e-9));
  }
}

TEST_CASE("a smaller obstacle, one less, or a larger plaque never gives a smaller size") {
  std::mt19937 random(5);
  for (int round = 0; round < 150; ++round) {
    Plaque plaque = random_plaque(random, 1 + round % 4, 2 + round % 3);
    for (const double gain : {any_place, on_axis_only}) {
      const double before = size_of(plaque, gain) * (1 - 1e-10);
      Plaque easier = plaque;
      for (ConvexHull& obstacle : easier.area.obstacles) {
        const Point middle = obstacle.vertices.front();
        for (Point& p : obstacle.vertices) p = middle + 0.9 * (p - middle);
      }
      REQUIRE(size_of(easier, gain) >= before);
      easier = plaque;
      easier.area.obstacles.pop_back();
      REQUIRE(size_of(easier, gain) >= before);
      easier = plaque;
      for (HalfPlane& edge : easier.area.region.edges) edge.offset += 1;
      REQUIRE(size_of(easier, gain) >= before);
    }
  }
}

TEST_CASE("lines do not leave the middle to slip a letter's round corner under a stamp") {
  const double width = 10;
  std::vector<ConvexHull> lines;
  for (const double y : {3.75, 2.5, 1.25}) lines.push_back({box(2, y, width - 2, y + 1)});
  lines.push_back({{{0, 0}, {width, 0}, {width, 0.3}, {width - 0.1, 1}, {0, 1}}});
  const ClearArea area{region_of(box(0, 0, 100, 60)), {{box(64, 4, 92, 36)}}};
  Wish wish{{width / 2, 2.375}, {50, 30}, 1e6, 0.1};
  const Placement slipped = *largest_copy(lines, area, wish);
  CHECK(slipped.shift.y == Approx(0).margin(1e-6));
  CHECK(slipped.size < 6.4 * 1.005);
  wish.for_middle = 0.01;
  const Placement there = *largest_copy(lines, area, wish);
  CHECK(there.size == Approx(6.4).epsilon(1e-9));
  CHECK(there(wish.anchor).y == Approx(30).epsilon(1e-9));
}

TEST_CASE("of the size no more than the share is given up, and only for places much nearer to the middle") {
  std::mt19937 random(9);
  int moved = 0;
  for (int round = 0; round < 400; ++round) {
    Plaque plaque = random_plaque(random, 1 + round % 2, 1 + round % 4);
    plaque.wish.off_axis_gain = round % 2 == 0 ? any_place : on_axis_only;
    const auto largest = largest_copy(plaque.lines, plaque.area, plaque.wish);
    plaque.wish.for_middle = 0.01;
    const auto nearer = largest_copy(plaque.lines, plaque.area, plaque.wish);
    REQUIRE(largest.has_value() == nearer.has_value());
    if (!largest) continue;
    const auto away = [&](const Placement& there) {
      return std::abs(there(plaque.wish.anchor).y - plaque.wish.target.y);
    };
    CHECK(nearer->size <= largest->size * (1 + 1e-9));
    CHECK(nearer->size >= largest->size * (0.99 - 1e-9));
    CHECK(away(*nearer) <= away(*largest) + 1e-6);
    CHECK(overlap_of(plaque, *nearer) < 1e-6);
    CHECK(outside_of(plaque, *nearer) < 1e-6);
    if (nearer->size < largest->size * 0.9999) ++moved;
  }
  CHECK(moved > 2);
}

TEST_CASE("a chip in the corner moves the text only when moving pays") {
  const std::vector<ConvexHull> lines{{box(-4, 1, 4, 2)}, {box(-4, -0.5, 4, 0.5)}};
  ClearArea area{region_of(box(0, 0, 120, 60)), {}};
  Wish wish{{0, 0.75}, {60, 30}, 1e6, 0.1};
  const double whole = largest_copy(lines, area, wish)->size;
  // So small a chip costs the text nothing: 120 wide, 37.5 high, and the middle is free.
  area.obstacles = {{{{100, 0}, {120, 0}, {120, 10}}}};
  CHECK(largest_copy(lines, area, wish)->size == Approx(whole).epsilon(1e-10));
  CHECK((*largest_copy(lines, area, wish))(wish.anchor).x == Approx(60).margin(1e-6));
  // A slab at one side: on the axis the text would lose what lies between them twice.
  area.obstacles = {{box(112, -5, 125, 65)}};
  Placement there = *largest_copy(lines, area, wish);
  CHECK(there(wish.anchor).x == Approx(60).margin(1e-6));
  CHECK(there.size == Approx(104 / 8.0).epsilon(1e-9));  // 112 / 104 is less than 1.1 times as much
  area.obstacles = {{box(104, -5, 125, 65)}};
  there = *largest_copy(lines, area, wish);
  CHECK(there.size == Approx(104 / 8.0).epsilon(1e-9));  // 88 on the axis
  CHECK(there(wish.anchor).x == Approx(52).margin(1e-6));
}

TEST_CASE("obstacles may touch, hold one another, and cover all there is") {
  const Polygon room = box(0, 0, 120, 60);
  const std::vector<ConvexHull> lines{{box(-4, 1, 4, 2)}, {box(-2, -0.5, 2, 0.5)}};
  const Wish wish{{0, 0.75}, {60, 30}, 1e6, 0.1};
  const auto size = [&](std::vector<ConvexHull> obstacles) {
    const auto placement = largest_copy(lines, {region_of(room), std::move(obstacles)}, wish);
    return placement ? placement->size : 0;
  };
  CHECK(size({{room}}) == 0);
  CHECK(size({{box(-10, -10, 200, 200)}}) == 0);
  CHECK(size({{box(0, 0, 60, 60)}, {box(60, 0, 120, 60)}}) == 0);  // they share an edge
  CHECK(size({{{{0, 0}, {120, 0}, {120, 60}}}, {{{0, 0}, {120, 60}, {0, 60}}}}) == 0);
  const double one = size({{box(0, 0, 50, 60)}});
  CHECK(one == Approx(70 / 8.0).epsilon(1e-9));
  CHECK(size({{box(0, 0, 50, 60)}, {box(10, 10, 20, 20)}, {box(0, 0, 50, 60)}}) == Approx(one).epsilon(1e-10));
  CHECK(size({{box(0, 0, 20, 60)}, {box(20, 0, 50, 30)}, {box(20, 30, 50, 60)}}) == Approx(one).epsilon(1e-10));
  CHECK(size({{}, {box(0, 0, 50, 60)}}) == Approx(one).epsilon(1e-10));  // nothing at all stands in nobody's way
  // A crack is a line: no line of lettering crosses it.
  CHECK(size({{{{60, -10}, {60, 90}}}}) == Approx(60 / 8.0).epsilon(1e-9));
}

TEST_CASE("lines of hardly any height, and one-letter lines, are parted too") {
  const std::vector<ConvexHull> lines{
      {box(-1, 0, 1, 1e-7)}, {{{-0.1, -1}, {0.1, -1}, {0, -0.5}}}, {{{0, -2}, {1, -2}}}};
  const ClearArea area{region_of(box(0, 0, 100, 60)), {{disc({50, 30}, 10, 40)}, {{{0, 0}, {30, 0}, {0, 30}}}}};
  const auto placement = largest_copy(lines, area, {{0, -1}, {50, 30}, 1e6, 0.1});
  REQUIRE(placement);
  CHECK(overlap_of({lines, area, {}}, *placement) <= 1e-9);
  CHECK(placement->size > 10);
}

TEST_CASE("asked for a size over a least one, the search tells it or that there is none, and costs less") {
  const unsigned seed = 2635;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::size_t told = 0, none = 0, nodes = 0, nodes_in_full = 0;
  for (int i = 0; i < 300; ++i) {
    Plaque plaque = random_plaque(random, 1 + i % 4, i % 5);
    plaque.wish.off_axis_gain = std::array{-1.0, 0.0, 0.1, 1e9}[random() % 4];
    PartingCost cost_in_full;
    const auto placement = largest_copy(plaque.lines, plaque.area, plaque.wish, &cost_in_full);
    const double size = placement ? placement->size : 0;
    Bounds bounds;
    for (const ConvexHull& line : plaque.lines) {
      for (const Point p : line.vertices) bounds.add(p);
    }
    const auto rows = fit_rows(
        [&](Point normal) {
          double most = -1e300;
          for (const ConvexHull& line : plaque.lines) most = std::max(most, support_of(line, normal));
          return most;
        },
        plaque.area.region);
    for (const double share : {0.0, 0.5, 0.9, 0.999, 1 - 1e-9, 1 + 1e-9, 1.001, 1.1, 2.0}) {
      PartingCost cost;
      const auto over = largest_size_over(share * size, rows, bounds, plaque.lines, plaque.area.obstacles, plaque.wish,
                                          cost, std::numeric_limits<std::size_t>::max());
      INFO("plaque " << i << ", over " << share << " of " << size);
      CHECK(over.has_value() == (size > 0 && share < 1));
      if (over) CHECK(*over == Approx(size).epsilon(3e-10));
      (over ? told : none)++;
      if (share >= 1) nodes += cost.nodes, nodes_in_full += cost_in_full.nodes;
    }
  }
  CHECK(told > 1000);
  CHECK(none > 1000);
  CHECK(nodes < nodes_in_full / 2);
}

TEST_CASE("a search costs little and never reaches its limit") {
  std::mt19937 random(7);
  for (const int obstacles : {1, 3, 6}) {
    for (const int lines : {1, 3, 6}) {
      std::size_t most = 0;
      for (int round = 0; round < 60; ++round) {
        const Plaque plaque = random_plaque(random, lines, obstacles);
        PartingCost cost;
        largest_copy(plaque.lines, plaque.area, plaque.wish, &cost);
        REQUIRE_FALSE(cost.limit_reached);
        most = std::max(most, cost.nodes);
      }
      INFO(obstacles << " obstacles, " << lines << " lines: " << most << " programmes at most");
      CHECK(most < 3000);
    }
  }
}

}  // namespace ordinatio::parting_test
