// Transforms by least squares, against the closed form of Umeyama, "Least-squares estimation of transformation parameters
// between two point patterns" (IEEE PAMI 13:376, 1991), written from the paper with a singular value decomposition by
// Jacobi turns; against the general least-squares solver of numpy 1.24 (Debian: python3-numpy); and against
// GDAL 3.6's affine fit of ground control points (Debian: gdal-bin).
#include "bed/registration.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "composed_sheet.h"

using namespace ordinatio;
using namespace outside;
using Model = Registration::Model;

namespace {

struct Matrix {
  double a = 0, b = 0, c = 0, d = 0;  // rows (a, b) and (c, d)
  friend Matrix operator*(const Matrix& m, const Matrix& n) {
    return {m.a * n.a + m.b * n.c, m.a * n.b + m.b * n.d, m.c * n.a + m.d * n.c, m.c * n.b + m.d * n.d};
  }
  [[nodiscard]] Matrix transposed() const { return {a, c, b, d}; }
  [[nodiscard]] double determinant() const { return a * d - b * c; }
};

struct Decomposition {
  Matrix u, d, v;  // m = u·d·vᵀ, d diagonal, its first entry the greater
};

/// One Jacobi turn makes the columns of m·v stand upright to each other.
Decomposition decomposed(const Matrix& m) {
  const double p = m.a * m.a + m.c * m.c, q = m.b * m.b + m.d * m.d, r = m.a * m.b + m.c * m.d;
  const double angle = 0.5 * std::atan2(2 * r, p - q), c = std::cos(angle), s = std::sin(angle);
  const Matrix v{c, -s, s, c}, columns = m * v;
  const double first = std::hypot(columns.a, columns.c), second = std::hypot(columns.b, columns.d);
  Matrix u{columns.a / first, -columns.c / first, columns.c / first, columns.a / first};
  if (u.b * columns.b + u.d * columns.d < 0) u.b = -u.b, u.d = -u.d;
  return {u, {first, 0, 0, second}, v};
}

/// Equations (40) to (43) of the paper, c = 1 where nothing is scaled.
Transform umeyama(const std::vector<Point>& x, const std::vector<Point>& y, bool scaled) {
  const double n = static_cast<double>(x.size());
  Point x_mean, y_mean;
  for (std::size_t i = 0; i < x.size(); ++i) x_mean = x_mean + 1 / n * x[i], y_mean = y_mean + 1 / n * y[i];
  double x_variance = 0;
  Matrix covariance;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Point p = x[i] - x_mean, q = y[i] - y_mean;
    x_variance += dot(p, p) / n;
    covariance.a += q.x * p.x / n, covariance.b += q.x * p.y / n;
    covariance.c += q.y * p.x / n, covariance.d += q.y * p.y / n;
  }
  const Decomposition svd = decomposed(covariance);
  Matrix s{1, 0, 0, 1};
  if (svd.u.determinant() * svd.v.determinant() < 0) s.d = -1;
  const Matrix turn = svd.u * s * svd.v.transposed();
  const double c = scaled ? (svd.d.a * s.a + svd.d.d * s.d) / x_variance : 1;
  Transform t{c * turn.a, c * turn.c, c * turn.b, c * turn.d, 0, 0};
  const Point shift = y_mean - t(x_mean);
  t.dx = shift.x, t.dy = shift.y;
  return t;
}

struct Case {
  std::vector<Point> drawn, measured;
};

/// Marks near the corners of a bed, turned, scaled, sheared and shaken as boards and hands do.
std::vector<Case> cases(std::size_t count, unsigned seed) {
  std::mt19937 engine(seed);
  const auto random = [&](double least, double most) {
    return least + (most - least) * static_cast<double>(engine()) / static_cast<double>(std::mt19937::max());
  };
  std::vector<Case> all;
  for (std::size_t n = 0; n < count; ++n) {
    Case one;
    one.drawn = {{random(0, 60), random(0, 60)}, {random(540, 600), random(0, 60)}, {random(0, 60), random(340, 400)}};
    if (n % 3 != 0) one.drawn.push_back({random(500, 600), random(300, 400)});
    if (n % 3 == 2) one.drawn.push_back({random(0, 600), random(0, 400)});
    const double angle = random(-0.2, 0.2), scale = random(0.97, 1.03), c = scale * std::cos(angle);
    const double s = scale * std::sin(angle);
    const Transform t{c, s, -s + random(-0.01, 0.01), c, random(-20, 20), random(-20, 20)};
    for (const Point p : one.drawn) one.measured.push_back(t(p) + Point{random(-0.4, 0.4), random(-0.4, 0.4)});
    all.push_back(std::move(one));
  }
  return all;
}

double apart(const Transform& a, const Transform& b) {
  double most = 0;
  for (const Point p : {Point{0, 0}, {600, 0}, {0, 400}, {600, 400}}) most = std::max(most, length(a(p) - b(p)));
  return most;
}

Transform ours(const Case& one, Model model) {
  const auto registration = register_points(one.drawn, one.measured, model);
  REQUIRE(registration.ok());
  return registration->to_bed;
}

nlohmann::json json_of(const std::vector<Point>& points) {
  auto list = nlohmann::json::array();
  for (const Point p : points) list.push_back({p.x, p.y});
  return list;
}

}  // namespace

TEST_CASE("turns, with and without a scale, are Umeyama's") {
  for (const Case& one : cases(3000, 1)) {
    CHECK(apart(ours(one, Model::rigid), umeyama(one.drawn, one.measured, false)) < 1e-9);
    CHECK(apart(ours(one, Model::similar), umeyama(one.drawn, one.measured, true)) < 1e-9);
  }
}

TEST_CASE("the paper's own example comes out as the paper has it, and is told as mirrored") {
  // Umeyama 1991, section III: (0,0), (1,0), (0,2) to (0,0), (−1,0), (0,2); R = (0.832, 0.555; −0.555, 0.832),
  // c = 0.721, t = (−0.800, 0.400).
  const std::vector<Point> x{{0, 0}, {1, 0}, {0, 2}}, y{{0, 0}, {-1, 0}, {0, 2}};
  const Transform t = umeyama(x, y, true);
  CHECK(t.xx == Approx(0.721 * 0.832).margin(1e-3));
  CHECK(t.yx == Approx(0.721 * -0.555).margin(1e-3));
  CHECK(t.dx == Approx(-0.8).margin(1e-3));
  CHECK(t.dy == Approx(0.4).margin(1e-3));
  std::vector<Point> drawn, measured;
  for (const Point p : x) drawn.push_back(100 * p);
  for (const Point p : y) measured.push_back(100 * p);
  CHECK_FALSE(register_points(drawn, measured, Model::similar).ok());
}

TEST_CASE("scales and affines are those of numpy's general least squares") {
  const Scratch scratch;
  const std::vector<Case> all = cases(500, 2);
  std::string lines;
  for (const Case& one : all) {
    for (const char* model : {"scale", "affine"}) {
      lines +=
          nlohmann::json{{"model", model}, {"drawn", json_of(one.drawn)}, {"measured", json_of(one.measured)}}.dump();
      lines += '\n';
    }
  }
  save(scratch / "cases", lines);
  std::istringstream answers(
      output_of(std::string(PYTHON) + " " + TEST_FOLDER + "/outside/registration.py <" + quoted(scratch / "cases")));
  for (const Case& one : all) {
    for (const Model model : {Model::similar, Model::affine}) {
      std::string line;
      REQUIRE(std::getline(answers, line));
      const auto n = nlohmann::json::parse(line).get<std::vector<double>>();
      CHECK(apart(ours(one, model), {n[0], n[1], n[2], n[3], n[4], n[5]}) < 1e-8);
    }
  }
}

TEST_CASE("affines are those that GDAL fits to ground control points") {
  for (const Case& one : cases(40, 3)) {
    std::ostringstream command;
    command.precision(17);
    command << "echo '0 0\n600 0\n0 400' | gdaltransform -order 1";
    for (std::size_t i = 0; i < one.drawn.size(); ++i) {
      command << " -gcp " << one.drawn[i].x << ' ' << one.drawn[i].y << ' ' << one.measured[i].x << ' '
              << one.measured[i].y;
    }
    const std::string text = output_of(command.str());
    const std::vector<double> n = numbers_after(text, "", 9);
    const Transform t = ours(one, Model::affine);
    std::size_t at = 0;
    for (const Point p : {Point{0, 0}, {600, 0}, {0, 400}}) {
      CHECK(length(t(p) - Point{n[at], n[at + 1]}) < 1e-6);
      at += 3;
    }
  }
}
