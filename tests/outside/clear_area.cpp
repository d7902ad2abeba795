// Fits among obstacles against closed forms and against brute force: every combination of parting lines, each programme
// solved by GLPK 5.0 (GNU Linear Programming Kit; Debian: libglpk-dev). Pieces of areas against Boost.Polygon 1.74
// (Debian: libboost-dev).
#include <glpk.h>

#include <boost/polygon/polygon.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "../unit/geometry/allowed_area.h"
#include "fit/fit.h"

using namespace ordinatio;

namespace bp = boost::polygon;

namespace {

constexpr double exact = 1e-9;

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

double size_of(const std::vector<ConvexHull>& parts, const ClearArea& area, const Wish& wish) {
  const auto placement = largest_copy(parts, area, wish);
  return placement ? placement->size : 0;
}

double free_size(const std::vector<ConvexHull>& parts, const ClearArea& area) {
  return size_of(parts, area, {{0, 0}, {50, 30}, 1e6, -1});
}

/// support·s + normal·t ≤ offset, in mm and ems.
using Rows = std::vector<FitRow>;

/// All ways to part two convex polygons by a line along an edge of one of them, as rows, straight from the definition.
Rows ways_to_part(const ConvexHull& part, const ConvexHull& obstacle) {
  Rows ways;
  for (const HalfPlane& edge : region_of(obstacle.vertices).edges) {
    const Point inward{-edge.normal.x, -edge.normal.y};
    ways.push_back({support_of(part, inward), inward, -edge.offset});
  }
  for (const HalfPlane& edge : region_of(part.vertices).edges) {
    double nearest = 1e300;
    for (const Point q : obstacle.vertices) nearest = std::min(nearest, dot(edge.normal, q));
    ways.push_back({edge.offset, edge.normal, nearest});
  }
  return ways;
}

/// One programme in GLPK whose last rows are changed from one combination to the next.
class BruteForce {
 public:
  BruteForce(const std::vector<ConvexHull>& parts, const ClearArea& area, std::optional<Wish> on_axis) {
    glp_term_out(GLP_OFF);
    problem_ = glp_create_prob();
    glp_set_obj_dir(problem_, GLP_MAX);
    glp_add_cols(problem_, 3);
    glp_set_col_bnds(problem_, 1, GLP_LO, 0, 0);
    glp_set_col_bnds(problem_, 2, GLP_FR, 0, 0);
    glp_set_col_bnds(problem_, 3, GLP_FR, 0, 0);
    glp_set_obj_coef(problem_, 1, 1);
    for (const HalfPlane& edge : area.region.edges) {
      double support = -1e300;
      for (const ConvexHull& part : parts) support = std::max(support, support_of(part, edge.normal));
      set(glp_add_rows(problem_, 1), {support, edge.normal, edge.offset}, GLP_UP);
    }
    if (on_axis) set(glp_add_rows(problem_, 1), {on_axis->anchor.x, {1, 0}, on_axis->target.x}, GLP_FX);
    for (const ConvexHull& obstacle : area.obstacles) {
      for (const ConvexHull& part : parts) ways_.push_back(ways_to_part(part, obstacle));
    }
    if (!ways_.empty()) first_ = glp_add_rows(problem_, static_cast<int>(ways_.size()));
  }
  ~BruteForce() { glp_delete_prob(problem_); }
  BruteForce(const BruteForce&) = delete;
  BruteForce& operator=(const BruteForce&) = delete;

  double best(std::size_t pair = 0) {
    if (pair == ways_.size()) return solve();
    double most = 0;
    for (const FitRow& way : ways_[pair]) {
      set(first_ + static_cast<int>(pair), way, GLP_UP);
      most = std::max(most, best(pair + 1));
    }
    return most;
  }

 private:
  void set(int at, const FitRow& row, int kind) {
    const int columns[] = {0, 1, 2, 3};
    const double values[] = {0, row.support, row.normal.x, row.normal.y};
    glp_set_mat_row(problem_, at, 3, columns, values);
    glp_set_row_bnds(problem_, at, kind, row.offset, row.offset);
  }
  double solve() {
    glp_smcp options;
    glp_init_smcp(&options);
    options.tol_bnd = options.tol_dj = 1e-12;
    glp_std_basis(problem_);
    REQUIRE(glp_simplex(problem_, &options) == 0);
    return glp_get_status(problem_) == GLP_OPT ? glp_get_obj_val(problem_) : 0;
  }

  glp_prob* problem_;
  std::vector<Rows> ways_;
  int first_ = 0;
};

double uniform(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

ConvexHull random_hull(std::mt19937& random, Point middle, double width, double height, int points) {
  std::vector<Point> all(static_cast<std::size_t>(points));
  for (Point& p : all) {
    p = middle + Point{uniform(random, -width, width), uniform(random, -height, height)};
  }
  return hull_of(std::move(all));
}

struct Scene {
  std::vector<ConvexHull> parts;
  ClearArea area;
};

/// Lines of lettering one under the other, of few corners, and things that lie where they would go.
Scene random_scene(std::mt19937& random, int lines, int obstacles) {
  Scene scene;
  for (int i = 0; i < lines; ++i) {
    scene.parts.push_back(random_hull(random, {0, -1.3 * i}, uniform(random, 1, 4), 0.5, 4));
  }
  scene.area.region = region_of(random_hull(random, {50, 30}, 60, 40, 9).vertices);
  for (int i = 0; i < obstacles; ++i) {
    const Point middle{uniform(random, 10, 90), uniform(random, 5, 55)};
    scene.area.obstacles.push_back(random_hull(random, middle, uniform(random, 3, 20), uniform(random, 3, 20), 4));
  }
  return scene;
}

using BoostArea = bp::polygon_set_data<int>;

/// By the even-odd rule: contours that cross nothing may lie in one another's holes.
BoostArea by_boost(const Polygons& polygons) {
  BoostArea area;
  for (const Polygon& polygon : polygons) {
    std::vector<bp::point_data<int>> points;
    for (const Point p : polygon) points.emplace_back(int(std::lround(p.x)), int(std::lround(p.y)));
    bp::polygon_data<int> shape;
    bp::set_points(shape, points.begin(), points.end());
    using namespace bp::operators;
    area ^= shape;
  }
  return area;
}

}  // namespace

TEST_CASE("sizes among obstacles meet the closed forms") {
  // Derived by hand, each from the lines that the copy touches; no source beyond elementary geometry.
  const ConvexHull square{box(0, 0, 1, 1)};
  SECTION("a square in an L: the width of its arms, or what the inner corner leaves on the diagonal") {
    CHECK(free_size({square}, clear_area_of({{{0, 0}, {90, 0}, {90, 25}, {30, 25}, {30, 70}, {0, 70}}})) ==
          Approx(30).epsilon(exact));
    CHECK(free_size({square}, clear_area_of({{{0, 0}, {90, 0}, {90, 35}, {30, 35}, {30, 70}, {0, 70}}})) ==
          Approx(35).epsilon(exact));
  }
  SECTION("a square under a slope from (c, 0) to (0, c): half of c") {
    const ClearArea area{region_of(box(0, 0, 100, 100)), {{{{90, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 90}}}}};
    CHECK(free_size({square}, area) == Approx(45).epsilon(exact));
  }
  SECTION("a line beside a thing that takes one end of the room") {
    const ClearArea area{region_of(box(0, 0, 100, 60)), {{box(70, -5, 130, 65)}}};
    CHECK(free_size({square}, area) == Approx(60).epsilon(exact));
    CHECK(free_size({{box(0, 0, 7, 1)}}, area) == Approx(10).epsilon(exact));
  }
  SECTION("a square beside a square in the middle of a square: the wider of the strips around it") {
    const ClearArea area{region_of(box(0, 0, 60, 60)), {{box(25, 22, 40, 41)}}};
    CHECK(free_size({square}, area) == Approx(25).epsilon(exact));
  }
  SECTION("a long line over a short one, round a corner: a common hull would have to be smaller") {
    const ClearArea area{region_of(box(0, 0, 40, 20)), {{box(20, 0, 40, 10)}}};
    const std::vector<ConvexHull> lines{{box(0, 1, 4, 2)}, {box(0, 0, 2, 1)}};
    CHECK(free_size(lines, area) == Approx(10).epsilon(exact));
    CHECK(free_size({hull_of({{0, 1}, {4, 1}, {4, 2}, {0, 2}, {0, 0}, {2, 0}})}, area) < 9);
  }
  SECTION("two lines, one on each side of a bar, and both on one side where the bar is wider than their gap") {
    const ClearArea area{region_of(box(0, 0, 100, 60)), {{box(-10, 25, 110, 29)}}};
    // With 0.5 between them they fill the height of 60, and the gap of 12 holds the bar of 4.
    CHECK(free_size({{box(0, 1.5, 2, 2.5)}, {box(0, 0, 2, 1)}}, area) == Approx(24).epsilon(exact));
    // With 0.1 the gap would have to be scaled by 40: 31 above the bar are all there is.
    CHECK(free_size({{box(0, 1.1, 2, 2.1)}, {box(0, 0, 2, 1)}}, area) == Approx(31 / 2.1).epsilon(exact));
  }
}

TEST_CASE("GLPK finds no better combination of parting lines, and the same best") {
  const unsigned seed = 1960;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto [lines, obstacles, rounds] =
      GENERATE(table<int, int, int>({{1, 1, 300}, {2, 1, 100}, {1, 2, 100}, {3, 1, 12}, {1, 3, 12}, {2, 2, 4}}));
  int parted = 0;
  for (int round = 0; round < rounds; ++round) {
    INFO(lines << " lines, " << obstacles << " obstacles, round " << round);
    const Scene scene = random_scene(random, lines, obstacles);
    const double wanted = BruteForce(scene.parts, scene.area, std::nullopt).best();
    REQUIRE(free_size(scene.parts, scene.area) == Approx(wanted).epsilon(exact).margin(1e-6));
    parted += wanted < free_size(scene.parts, {scene.area.region, {}}) * (1 - exact);
    // On the axis: nothing gains enough to leave it.
    const Wish held{{0.1, 0}, {45, 30}, 1e6, 1e9};
    const double on_axis = BruteForce(scene.parts, scene.area, held).best();
    if (on_axis > 0.01) REQUIRE(size_of(scene.parts, scene.area, held) == Approx(on_axis).epsilon(exact));
  }
  CHECK(parted >= rounds / 6);  // else the scenes show nothing
}

TEST_CASE("Boost.Polygon finds that hull less pieces is the area, and no piece in it") {
  std::mt19937 random(31);
  for (int round = 0; round < 100; ++round) {
    // Whole numbers, so that Boost's grid rounds nothing.
    Polygons area{box(0, 0, 10000, 7000)};
    for (int i = 0; i < 6; ++i) {
      Polygon thing;
      const Point middle{uniform(random, 0, 10000), uniform(random, 0, 7000)};
      for (int k = 0; k < 7; ++k) {
        const double angle = 0.9 * k, reach = uniform(random, 200, 2000);
        thing.push_back(
            {std::round(middle.x + reach * std::cos(angle)), std::round(middle.y + reach * std::sin(angle))});
      }
      area = difference(area, {thing}, 1);
    }
    std::vector<Point> corners;
    for (const Polygon& polygon : area) corners.insert(corners.end(), polygon.begin(), polygon.end());
    Polygons pieces;
    for (const ConvexHull& piece : clear_area_of(area).obstacles) pieces.push_back(piece.vertices);
    using namespace bp::operators;
    const BoostArea allowed = by_boost(area), cut = by_boost(pieces), hull = by_boost({hull_of(corners).vertices});
    // Where contours cross between whole numbers Boost moves the crossing by one, along some 10,000 of edge.
    CHECK(bp::area(BoostArea(hull - cut)) == Approx(bp::area(allowed)).margin(2e4));
    CHECK(bp::area(BoostArea(cut & allowed)) <= 2e4);
  }
}
