// The fit against closed forms, against the solution of the same programme by GLPK 5.0 (Debian: libglpk-dev), and against
// a search by brute force. Shapes and sizes are our own choice: own measurement.
#include <glpk.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "../unit/fit/hull_copy.h"

#include "fit/fit.h"

using namespace ordinatio;
using std::numbers::pi;

namespace {

Polygon rectangle(double w, double h) { return {{0, 0}, {w, 0}, {w, h}, {0, h}}; }

Polygon regular(int corners, double radius, double turn = 0) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * pi * i / corners + turn;
    polygon.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return polygon;
}

Point middle(const Polygon& polygon) {
  Point sum;
  for (const Point p : polygon) sum = sum + p;
  return 1.0 / static_cast<double>(polygon.size()) * sum;
}

std::vector<FitRow> rows_of(const Polygon& shape, const Polygon& room) {
  const ConvexHull hull = hull_of(shape);
  return fit_rows([&hull](Point normal) { return support_of(hull, normal); }, region_of(room));
}

double size_of(const Polygon& shape, const Polygon& room) {
  const auto placement = largest_copy(hull_of(shape), region_of(room), {middle(shape), middle(room), 1e9, -1});
  REQUIRE(placement);
  return placement->size;
}

/// The same programme by the simplex method of GLPK (GNU Linear Programming Kit).
double size_by_glpk(const Polygon& shape, const Polygon& room) {
  const std::vector<FitRow> rows = rows_of(shape, room);
  glp_term_out(GLP_OFF);
  glp_prob* problem = glp_create_prob();
  glp_set_obj_dir(problem, GLP_MAX);
  glp_add_cols(problem, 3);
  glp_set_col_bnds(problem, 1, GLP_LO, 0, 0);
  glp_set_col_bnds(problem, 2, GLP_FR, 0, 0);
  glp_set_col_bnds(problem, 3, GLP_FR, 0, 0);
  glp_set_obj_coef(problem, 1, 1);
  glp_add_rows(problem, static_cast<int>(rows.size()));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const int columns[] = {0, 1, 2, 3};
    const double values[] = {0, rows[i].support, rows[i].normal.x, rows[i].normal.y};
    glp_set_mat_row(problem, static_cast<int>(i) + 1, 3, columns, values);
    glp_set_row_bnds(problem, static_cast<int>(i) + 1, GLP_UP, 0, rows[i].offset);
  }
  glp_smcp options;
  glp_init_smcp(&options);
  options.tol_bnd = options.tol_dj = 1e-12;
  REQUIRE(glp_simplex(problem, &options) == 0);
  const double size = glp_get_obj_val(problem);
  glp_delete_prob(problem);
  return size;
}

/// The scale that a given shift leaves.
double size_at(const std::vector<FitRow>& rows, Point shift) {
  double size = 1e300;  // the shape lies about the origin: no support is negative
  for (const FitRow& row : rows) size = std::min(size, (row.offset - dot(row.normal, shift)) / row.support);
  return size;
}

/// The largest value of a concave function between two places, by closing in on it from both sides.
template <class Function>
double largest(Function f, double low, double high) {
  for (int i = 0; i < 90; ++i) {
    const double third = (high - low) / 3;
    f(low + third) < f(high - third) ? low += third : high -= third;
  }
  return f((low + high) / 2);
}

/// The scale that a shift leaves is a concave function of the shift: searched along x, at each x along y, by evaluation
/// alone, knowing nothing of linear programmes.
double size_by_search(const Polygon& shape, const Polygon& room) {
  const Point centre = middle(shape);
  Polygon centred;
  for (const Point p : shape) centred.push_back(p - centre);
  const std::vector<FitRow> rows = rows_of(centred, room);
  const auto best_at = [&](double x) { return largest([&](double y) { return size_at(rows, {x, y}); }, -100, 100); };
  return largest(best_at, -100, 100);
}

Polygon random_polygon(std::mt19937& random, double reach) {
  std::uniform_real_distribution<double> place(-reach, reach);
  std::vector<Point> points(10);
  for (Point& p : points) p = {place(random), place(random)};
  return hull_of(std::move(points)).vertices;
}

constexpr double exact = 1e-9;

}  // namespace

TEST_CASE("sizes meet the closed forms") {
  // Derived by hand, each from the lines that the copy touches; no source beyond elementary geometry.
  SECTION("a rectangle of ratio r in a rectangle: the tighter side decides") {
    for (const double r : {0.1, 0.5, 1.0, 2.0, 7.0}) {
      CHECK(size_of(rectangle(r, 1), rectangle(80, 60)) == Approx(std::min(80 / r, 60.0)).epsilon(exact));
    }
  }
  SECTION("a rectangle in a right triangle of legs b and H: 1 / (w/b + h/H)") {
    CHECK(size_of(rectangle(3, 1), {{0, 0}, {60, 0}, {0, 40}}) == Approx(40.0 / 3).epsilon(exact));
    CHECK(size_of(rectangle(1, 1), {{0, 0}, {60, 0}, {0, 40}}) == Approx(1 / (1.0 / 60 + 1.0 / 40)).epsilon(exact));
  }
  SECTION("a unit square in the hexagon of unit side with a corner on the x axis: 3 − √3") {
    CHECK(size_of(rectangle(1, 1), regular(6, 1)) == Approx(3 - std::sqrt(3.0)).epsilon(exact));
  }
  SECTION("a rectangle in the rhombus |x|/a + |y|/b ≤ 1: 2 / (w/a + h/b)") {
    CHECK(size_of(rectangle(3, 2), {{50, 0}, {0, 30}, {-50, 0}, {0, -30}}) ==
          Approx(2 / (3.0 / 50 + 2.0 / 30)).epsilon(exact));
  }
  SECTION("an equilateral triangle turned upside down in its like: ½") {
    CHECK(size_of(regular(3, 1, -pi / 2), regular(3, 1, pi / 2)) == Approx(0.5).epsilon(exact));
  }
  SECTION("a square in a square turned by 45°: √½") {
    CHECK(size_of(regular(4, 1, pi / 4), regular(4, 1)) == Approx(std::sqrt(0.5)).epsilon(exact));
  }
  SECTION("an n-gon in its like: the ratio of the radii") {
    for (const int n : {3, 5, 12, 99}) CHECK(size_of(regular(n, 2), regular(n, 7)) == Approx(3.5).epsilon(exact));
  }
}

TEST_CASE("in a regular 720-gon a rectangle comes as near to the circle's as the polygon does") {
  const Polygon round = regular(720, 50);
  for (const double r : {0.2, 1.0, 3.0}) {
    const double in_circle = 2 * 50 / std::hypot(r, 1), apothem_share = std::cos(pi / 720);
    const double size = size_of(rectangle(r, 1), round);
    CHECK(size <= in_circle * (1 + exact));
    CHECK(size >= in_circle * apothem_share * (1 - exact));
  }
}

TEST_CASE("GLPK finds the same size of the same programme") {
  std::mt19937 random(703);
  for (int round = 0; round < 1000; ++round) {
    const Polygon shape = random_polygon(random, 1), room = random_polygon(random, 100);
    REQUIRE(size_of(shape, room) == Approx(size_by_glpk(shape, room)).epsilon(exact));
  }
}

TEST_CASE("a search by brute force finds no larger copy, and none much smaller") {
  const unsigned seed = 1991;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 1000; ++round) {
    const Polygon shape = random_polygon(random, 1), room = random_polygon(random, 100);
    REQUIRE(size_of(shape, room) == Approx(size_by_search(shape, room)).epsilon(1e-6));
  }
}
