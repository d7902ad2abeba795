#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <random>

#include "fit/fit.h"

using namespace ordinatio;

namespace {

Polygon round_thing(Point middle, double radius, int corners) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    polygon.push_back(middle + radius * Point{std::cos(angle), std::sin(angle)});
  }
  return polygon;
}
double uniform(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}
}

TEST_CASE("costs", "[.]") {
  std::mt19937 random(7);
  for (const int obstacles : {1, 3, 6}) {
    for (const int lines : {1, 2, 4, 6}) {
      std::vector<double> times;
      std::vector<std::size_t> nodes;
      int none = 0, limit = 0;
      for (int round = 0; round < 100; ++round) {
        std::vector<ConvexHull> parts;
        for (int i = 0; i < lines; ++i) {
          const double half = uniform(random, 1, 5);
          std::vector<Point> points;
          for (int k = 0; k < 40; ++k) {
            points.push_back({uniform(random, -half, half), -1.25 * i + uniform(random, -0.2, 0.75)});
          }
          parts.push_back(hull_of(points));
        }
        ClearArea area{region_of(*inset(rectangle_outline(152.4, 101.6, Corner::rounded, 12), 5)), {}};
        for (int i = 0; i < obstacles; ++i) {
          const Point at{uniform(random, 0, 152), uniform(random, 0, 101)};
          area.obstacles.push_back({round_thing(at, uniform(random, 3, 15), 20 + int(uniform(random, 0, 60)))});
        }
        const Wish wish{{0, -1.25 * (lines - 1) / 2 + 0.35}, {76.2, 50.8}, 40, 0.1};
        PartingCost cost;
        const auto begin = std::chrono::steady_clock::now();
        const auto p = largest_copy(parts, area, wish, &cost);
        times.push_back(std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - begin).count());
        nodes.push_back(cost.nodes);
        none += !p;
        limit += cost.limit_reached;
      }
      std::ranges::sort(times);
      std::ranges::sort(nodes);
      std::printf("%d obstacles %d lines: median %.0f us %zu nodes, p90 %.0f us %zu, worst %.0f us %zu; none %d limit %d\n", obstacles, lines,
                  times[50], nodes[50], times[90], nodes[90], times.back(), nodes.back(), none, limit);
      std::fflush(stdout);
    }
  }
}
