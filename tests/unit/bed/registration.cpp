#include "bed/registration.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

namespace ordinatio::registration_test {
using Model = Registration::Model;
using Catch::Contains;

namespace {

const std::vector<Point> corners{{8, 8}, {592, 8}, {8, 392}, {580, 392}};

Transform turn_and_shift(double degrees, double scale, Point shift) {
  const double a = degrees * std::numbers::pi / 180, c = scale * std::cos(a), s = scale * std::sin(a);
  return {c, s, -s, c, shift.x, shift.y};
}

std::vector<Point> moved(const std::vector<Point>& points, const Transform& by) {
  std::vector<Point> result;
  for (const Point p : points) result.push_back(by(p));
  return result;
}

Registration registered(const std::vector<Point>& drawn, const std::vector<Point>& measured, Model model) {
  auto registration = register_points(drawn, measured, model);
  if (!registration.ok()) FAIL(describe(registration.fault()));
  return *std::move(registration);
}

std::string refused(const std::vector<Point>& drawn, const std::vector<Point>& measured, Model model) {
  const auto registration = register_points(drawn, measured, model);
  REQUIRE_FALSE(registration.ok());
  CHECK_FALSE(registration.fault().mend.empty());
  return registration.fault().what;
}

/// How far two transforms differ anywhere on a bed of a metre.
double apart(const Transform& a, const Transform& b) {
  double most = 0;
  for (const Point p : {Point{0, 0}, {1000, 0}, {0, 1000}, {1000, 1000}}) most = std::max(most, length(a(p) - b(p)));
  return most;
}

double squares(const Registration& registration, const Transform& by) {
  double sum = 0;
  for (std::size_t i = 0; i < registration.drawn.size(); ++i) {
    const Point off = registration.measured[i] - by(registration.drawn[i]);
    sum += dot(off, off);
  }
  return sum;
}

struct Random {
  std::mt19937 engine{1874};
  double operator()(double least, double most) {
    return least + (most - least) * static_cast<double>(engine()) / static_cast<double>(std::mt19937::max());
  }
  std::vector<Point> points(std::size_t count) {
    std::vector<Point> result;
    for (std::size_t i = 0; i < count; ++i) result.push_back({(*this)(0, 600), (*this)(0, 400)});
    return result;
  }
};

}  // namespace

TEST_CASE("any turn, scale and affine is found again exactly, with nothing left at any mark") {
  Random random;
  for (int n = 0; n < 2000; ++n) {
    const Point shift{random(-50, 50), random(-50, 50)};
    const double degrees = random(-180, 180), scale = random(0.5, 2);
    Transform affine = turn_and_shift(degrees, scale, shift);
    affine.xx += random(-0.1, 0.1), affine.yx += random(-0.1, 0.1);
    const std::tuple<Model, Transform, std::size_t> table[] = {
        {Model::rigid, turn_and_shift(degrees, 1, shift), 2},
        {Model::similar, turn_and_shift(degrees, scale, shift), 2},
        {Model::affine, affine, 3}};
    for (const auto& [model, wanted, least] : table) {
      for (std::size_t count = least; count <= 5; ++count) {
        std::vector<Point> drawn = random.points(count);
        drawn[0] = {0, 0}, drawn[1] = {600, 10};
        if (count > 2) drawn[2] = {30, 400};
        const Registration found = registered(drawn, moved(drawn, wanted), model);
        CHECK(apart(found.to_bed, wanted) < 1e-9);
        CHECK(worst_residual(found) < 1e-10);
        CHECK(found.redundancy == static_cast<int>(2 * count) - unknowns_of(model));
      }
    }
  }
}

TEST_CASE("no transform of its kind leaves less at noisy marks") {
  Random random;
  for (int n = 0; n < 200; ++n) {
    std::vector<Point> measured = moved(corners, turn_and_shift(random(-5, 5), random(0.98, 1.02), {3, -2}));
    for (Point& p : measured) p = p + Point{random(-0.5, 0.5), random(-0.5, 0.5)};
    for (const Model model : {Model::rigid, Model::similar, Model::affine}) {
      const Registration found = registered(corners, measured, model);
      const double least = squares(found, found.to_bed);
      CHECK(found.root_mean_square == Approx(std::sqrt(least / 4)));
      for (int i = 0; i < 50; ++i) {
        Transform other =
            then(found.to_bed, turn_and_shift(random(-0.05, 0.05), 1, {random(-0.1, 0.1), random(-0.1, 0.1)}));
        if (model != Model::rigid) other = then(scale_by(random(0.999, 1.001)), other);
        if (model == Model::affine) other.xx += random(-1e-3, 1e-3), other.yx += random(-1e-3, 1e-3);
        CHECK(squares(found, other) >= least - 1e-9);
      }
    }
  }
}

TEST_CASE("the order in which marks come does not matter") {
  Random random;
  std::vector<Point> measured = moved(corners, turn_and_shift(1, 1.003, {3, -2}));
  for (Point& p : measured) p = p + Point{random(-0.2, 0.2), random(-0.2, 0.2)};
  for (const Model model : {Model::rigid, Model::similar, Model::affine}) {
    const Registration first = registered(corners, measured, model);
    std::vector<std::size_t> order{0, 1, 2, 3};
    while (std::ranges::next_permutation(order).found) {
      std::vector<Point> p, q;
      for (const std::size_t i : order) p.push_back(corners[i]), q.push_back(measured[i]);
      const Registration found = registered(p, q, model);
      CHECK(apart(found.to_bed, first.to_bed) < 1e-9);
      for (std::size_t i = 0; i < 4; ++i) CHECK(length(found.residuals[i] - first.residuals[order[i]]) < 1e-9);
    }
  }
}

TEST_CASE("a tenth of a degree over 400 mm is 0.698 mm, and is found from it") {
  const Registration found = registered({{0, 0}, {400, 0}}, {{0, 0}, {400, 0.698}}, Model::similar);
  CHECK(turn_of(found.to_bed) == Approx(0.1).margin(5e-5));
  const Point end = turn_and_shift(0.1, 1, {})(Point{400, 0});
  CHECK(length(end - Point{400, 0}) == Approx(0.698).margin(5e-4));
}

TEST_CASE("what one slip leaves is what arithmetic says") {
  // At the corners of a rectangle an affine correction leaves a quarter of one corner's slip at each, in turns.
  const std::vector<Point> drawn{{0, 0}, {500, 0}, {500, 300}, {0, 300}};
  std::vector<Point> measured = drawn;
  measured[2] = measured[2] + Point{0.4, -0.8};
  const Registration affine = registered(drawn, measured, Model::affine);
  for (std::size_t i = 0; i < 4; ++i) {
    const double sign = i % 2 == 0 ? 0.25 : -0.25;
    CHECK(length(affine.residuals[i] - sign * Point{0.4, -0.8}) < 1e-9);
  }
  // Two marks 1 mm too far apart: a turn leaves half of it at each, a scale nothing.
  const Registration turn = registered({{0, 0}, {300, 400}}, {{0, 0}, {300.6, 400.8}}, Model::rigid);
  CHECK(length(turn.residuals[1] - Point{0.3, 0.4}) < 1e-9);
  CHECK(length(turn.residuals[0] + Point{0.3, 0.4}) < 1e-9);
  CHECK(worst_residual(turn) == Approx(0.5));
  const Registration scale = registered({{0, 0}, {300, 400}}, {{0, 0}, {300.6, 400.8}}, Model::similar);
  CHECK(worst_residual(scale) < 1e-12);
  CHECK(scales_of(scale.to_bed).second == Approx(1.002));
}

TEST_CASE("it is said what marks cannot show") {
  const auto unseen = [](std::size_t count, Model model) {
    const std::vector<Point> drawn(corners.begin(), corners.begin() + static_cast<std::ptrdiff_t>(count));
    return unseen_by(registered(drawn, drawn, model));
  };
  CHECK_THAT(unseen(2, Model::similar), Contains("2 points") && Contains("a slip in measuring them does not show"));
  CHECK_THAT(unseen(3, Model::affine), Contains("3 points") && Contains("a slip in measuring them does not show"));
  CHECK_THAT(unseen(2, Model::rigid), Contains("a slip across the line between them does not show"));
  CHECK_THAT(unseen(4, Model::affine), Contains("but not which"));
  CHECK_THAT(unseen(3, Model::similar), Contains("but not which"));
  CHECK(unseen(3, Model::rigid).empty());
  CHECK(unseen(4, Model::similar).empty());
}

TEST_CASE("marks that fix nothing are refused") {
  const std::vector<Point> two{{8, 8}, {592, 8}}, line{{8, 8}, {592, 8}, {300, 8}};
  CHECK(refused({{8, 8}}, {{8, 8}}, Model::rigid) == "1 measured points are not enough");
  CHECK(refused(two, two, Model::affine) == "2 measured points are not enough");
  CHECK(refused(corners, two, Model::rigid) == "2 measured points are not enough");
  CHECK(refused({{8, 8}, {8, 8}}, two, Model::rigid) == "the drawn points lie in one place");
  CHECK(refused(two, {{8, 8}, {8.5, 8}}, Model::similar) == "the measured points lie in one place");
  CHECK(refused(line, {corners[0], corners[1], corners[2]}, Model::affine) == "the drawn points lie in one line");
  CHECK(refused({corners[0], corners[1], corners[2]}, line, Model::affine) == "the measured points lie in one line");
  CHECK(registered(line, line, Model::rigid).redundancy == 3);
}

TEST_CASE("what is not finite is refused, and what no bed holds") {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), -1e300}) {
    CHECK(refused({{8, 8}, {592, 8}}, {{8, 8}, {592, bad}}, Model::rigid) == "a measured point is no place on a bed");
    CHECK(refused({{bad, 8}, {592, 8}}, {{8, 8}, {592, 8}}, Model::similar) == "a drawn point is no place on a bed");
  }
}

TEST_CASE("marks given in a wrong order, which fit only when mirrored, are told as such") {
  const std::string told = "the measured points fit only when they are mirrored";
  for (const Model model : {Model::rigid, Model::similar, Model::affine}) {
    std::vector<Point> swapped = corners;
    std::swap(swapped[1], swapped[2]);
    std::vector<Point> mirrored;
    for (const Point p : corners) mirrored.push_back({600 - p.x, p.y});
    CHECK(refused(corners, mirrored, model) == told);
    CHECK(refused({{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {{0, 0}, {0, 100}, {100, 100}, {100, 0}}, model) == told);
    if (model == Model::affine) CHECK(refused(corners, swapped, model) == told);
  }
  // Nearly in one line, noise alone may look like a mirror; it is none.
  CHECK(registered({{0, 0}, {500, 0}, {250, 0.6}}, {{0, 0}, {500, 0}, {250, -0.6}}, Model::rigid).redundancy == 3);
}

TEST_CASE("a transform's turn, scales and inverse are what it was made of") {
  const Transform t = turn_and_shift(30, 1.5, {7, -3});
  CHECK(turn_of(t) == Approx(30));
  CHECK(scales_of(t).first == Approx(1.5));
  CHECK(scales_of(t).second == Approx(1.5));
  const Transform stretched = then(Transform{2, 0, 0, 3, 0, 0}, turn_and_shift(-40, 1, {}));
  CHECK(scales_of(stretched).first == Approx(2));
  CHECK(scales_of(stretched).second == Approx(3));
  CHECK(apart(then(stretched, inverse(stretched)), {}) < 1e-9);
  CHECK(apart(then(inverse(t), t), {}) < 1e-9);
  CHECK_THROWS_AS(inverse({1, 2, 2, 4, 0, 0}), std::domain_error);
}

}  // namespace ordinatio::registration_test
