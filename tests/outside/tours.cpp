// Ways through points against the optima of TSPLIB (Reinelt 1991, ORSA J. Computing 3:376): eil51, berlin52, kroA100 and d493, whose
// coordinates stand in tours/, d493 as Debian's r-cran-tsp 1.2-2 carries it; optima as TSPLIB publishes them.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "machine/tour.h"

using namespace ordinatio;

namespace {

std::vector<Point> points_of(const std::string& name) {
  std::ifstream file(TEST_FOLDER "/outside/tours/" + name + ".txt");
  std::vector<Point> points;
  for (Point p; file >> p.x >> p.y;) points.push_back(p);
  return points;
}

/// TSPLIB's EUC_2D: each way in whole units.
double rounded(Point a, Point b) { return std::floor(leap(a, b) + 0.5); }

}  // namespace

TEST_CASE("round trips are within 5 % of the shortest that is known") {
  struct Case {
    const char* name;
    std::size_t points;
    double optimum;
  };
  const Case cases[] = {{"eil51", 51, 426}, {"berlin52", 52, 7542}, {"kroA100", 100, 21282}, {"d493", 493, 35002}};
  for (const Case& c : cases) {
    const std::vector<Point> points = points_of(c.name);
    REQUIRE(points.size() == c.points);
    TourTask task;
    task.ends = {points[0], points[0]};
    for (std::size_t i = 1; i < points.size(); ++i) task.stops.push_back({{points[i]}, true});
    double trip = 0;
    Point here = points[0];
    std::vector<bool> seen(points.size(), false);
    for (const Visit visit : short_tour(task)) {
      const Point next = points[visit.stop + 1];
      trip += rounded(here, next);
      here = next;
      CHECK_FALSE(seen[visit.stop]);
      seen[visit.stop] = true;
    }
    trip += rounded(here, points[0]);
    WARN(c.name << ": " << trip << ", " << 100 * (trip / c.optimum - 1) << " % above " << c.optimum);
    CHECK(trip >= c.optimum);
    CHECK(trip <= 1.05 * c.optimum);
  }
}
