#include "photo/homography.h"

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

namespace ordinatio::inline photo {
namespace {

using Matrix = Eigen::Matrix3d;

/// Eight equations settle a map up to its scale. Where the eighth counts for less than this part of the first, points coincide or
/// three of four are in line; marks that a person could tell apart are far from it.
constexpr double least_singular = 1e-7;
constexpr double least_determinant = 1e-12;  // of a map whose entries have the norm 1

/// Takes the points' centroid to the origin and their mean distance from it to √2.
std::optional<Matrix> normalising(std::span<const Point> points) {
  const auto count = static_cast<double>(points.size());
  Point middle;
  for (const Point p : points) middle = middle + 1 / count * p;
  double distance = 0;
  for (const Point p : points) distance += length(p - middle) / count;
  if (!std::isfinite(distance) || !(distance > 0)) return std::nullopt;
  const double scale = std::numbers::sqrt2 / distance;
  return Matrix{{scale, 0, -scale * middle.x}, {0, scale, -scale * middle.y}, {0, 0, 1}};
}

/// Two rows a pair, of to × (H·from) = 0.
Eigen::MatrixXd equations(std::span<const Point> from, std::span<const Point> to, const Matrix& from_scale,
                          const Matrix& to_scale) {
  Eigen::MatrixXd rows = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(2 * from.size()), 9);
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Eigen::RowVector3d p = (from_scale * Eigen::Vector3d(from[i].x, from[i].y, 1)).transpose();
    const Eigen::Vector3d q = to_scale * Eigen::Vector3d(to[i].x, to[i].y, 1);
    const auto row = static_cast<Eigen::Index>(2 * i);
    rows.block<1, 3>(row, 3) = -p;
    rows.block<1, 3>(row, 6) = q.y() * p;
    rows.block<1, 3>(row + 1, 0) = p;
    rows.block<1, 3>(row + 1, 6) = -q.x() * p;
  }
  return rows;
}

Homography from_matrix(const Matrix& matrix) {
  Homography map;
  for (int i = 0; i < 9; ++i) map.h[static_cast<std::size_t>(i)] = matrix(i / 3, i % 3);
  return map;
}

Matrix to_matrix(const Homography& map) {
  return Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(map.h.data());
}

}  // namespace

std::optional<Homography> homography_between(std::span<const Point> from, std::span<const Point> to) {
  if (from.size() != to.size() || from.size() < 4) return std::nullopt;
  const auto from_scale = normalising(from), to_scale = normalising(to);
  if (!from_scale || !to_scale) return std::nullopt;
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(equations(from, to, *from_scale, *to_scale), Eigen::ComputeFullV);
  const auto& singular = svd.singularValues();
  if (!(singular(7) > least_singular * singular(0))) return std::nullopt;
  const Eigen::VectorXd h = svd.matrixV().col(8);
  const Matrix normalised{{h(0), h(1), h(2)}, {h(3), h(4), h(5)}, {h(6), h(7), h(8)}};
  if (!(std::abs(normalised.determinant()) > least_determinant)) return std::nullopt;
  Matrix matrix = to_scale->inverse() * normalised * *from_scale;
  matrix /= matrix.norm();
  Homography map = from_matrix(matrix);
  if (map.depth(from.front()) < 0) map = from_matrix(-matrix);
  return map;
}

std::optional<Homography> inverse_of(const Homography& map) {
  const Matrix matrix = to_matrix(map);
  const double determinant = matrix.determinant();
  if (!std::isfinite(determinant) || determinant == 0) return std::nullopt;
  // Of a point p before the camera, at depth w, the way back has the depth 1/w when nothing is divided out of the inverse.
  return from_matrix(matrix.inverse());
}

Transform slope_at(const Homography& map, Point p) {
  const double w = map.depth(p);
  const Point q = map(p);
  return {(map.h[0] - q.x * map.h[6]) / w,
          (map.h[3] - q.y * map.h[6]) / w,
          (map.h[1] - q.x * map.h[7]) / w,
          (map.h[4] - q.y * map.h[7]) / w,
          0,
          0};
}

}  // namespace ordinatio::inline photo
