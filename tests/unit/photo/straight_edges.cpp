#include "photo/straight_edges.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

namespace ordinatio::straight_edges_test {

namespace {

constexpr unsigned seed = 1973;

/// Points along a polygon, as far apart as edge points are, each within `noise` of it.
std::vector<EdgePoint> along(const Polygon& polygon, double noise) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> by(-noise, noise);
  std::vector<EdgePoint> edge;
  double left_over = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point from = polygon[i], side = polygon[(i + 1) % polygon.size()] - from;
    const double size = length(side);
    double at = left_over;
    for (; at < size; at += edge_spacing)
      edge.push_back({from + at / size * side + Point{by(random), by(random)}, true});
    left_over = at - size;
  }
  return edge;
}

double distance_to(const Polygon& polygon, Point p) {
  double least = 1e9;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], side = polygon[(i + 1) % polygon.size()] - a;
    const double share = std::clamp(dot(p - a, side) / dot(side, side), 0.0, 1.0);
    least = std::min(least, length(p - a - share * side));
  }
  return least;
}

/// How far the outline and the polygon that it was made of are apart at most, either way.
double apart(const Polygon& polygon, const Polygon& outline) {
  double most = 0;
  for (const EdgePoint& point : along(polygon, 0)) most = std::max(most, distance_to(outline, point.place));
  for (const EdgePoint& point : along(outline, 0)) most = std::max(most, distance_to(polygon, point.place));
  return most;
}

Polygon rounded(double width, double height, double radius) {
  Polygon polygon;
  const Point middles[]{
      {width - radius, height - radius}, {radius, height - radius}, {radius, radius}, {width - radius, radius}};
  for (int corner = 0; corner < 4; ++corner) {
    for (int i = 0; i <= 16; ++i) {
      const double angle = 1.5707963267948966 * (corner + i / 16.0);
      polygon.push_back(middles[corner] + radius * Point{std::cos(angle), std::sin(angle)});
    }
  }
  return polygon;
}

}  // namespace

TEST_CASE("straight sides with noise meet in their own corners") {
  const Polygon quarry{{0, 0}, {150, 3}, {148, 102}, {90, 110}, {-4, 98}};
  INFO("seed " << seed);
  const Polygon outline = straightened(along(quarry, 0.1));
  CHECK(outline.size() == 5);
  CHECK(apart(quarry, outline) < 0.1);
  CHECK(area_of(outline) > 0);
}

TEST_CASE("round corners keep their shape to the tolerance, and only those that blur could have made come out sharp") {
  for (const double radius : {4.0, 6.0, 15.0, 40.0}) {
    INFO("radius " << radius);
    const Polygon piece = rounded(120, 90, radius), outline = straightened(along(piece, 0));
    CHECK(apart(piece, outline) < outline_tolerance + 0.05);
    CHECK(outline.size() < 40);
  }
  const Polygon sharp = straightened(along(rounded(120, 90, 1), 0));
  CHECK(sharp.size() == 4);
  CHECK(apart(polygon_of_box({0, 0, 120, 90}), sharp) < 0.1);
}

TEST_CASE("a small cut corner and a chip stay, each at its place") {
  const Polygon piece{{0, 0}, {97.4, 0}, {100, 2.6}, {100, 60}, {52, 60}, {50, 57}, {48, 60}, {0, 60}};
  const Polygon outline = straightened(along(piece, 0));
  CHECK(outline.size() == piece.size());
  CHECK(apart(piece, outline) < outline_tolerance);
}

TEST_CASE("a disc is within the tolerance at any size") {
  for (const double radius : {8.0, 30.0, 75.0, 180.0}) {
    Polygon disc;
    for (int i = 0; i < 720; ++i) disc.push_back(radius * Point{std::cos(i * 0.00872665), std::sin(i * 0.00872665)});
    INFO("radius " << radius);
    CHECK(apart(disc, straightened(along(disc, 0.02))) < outline_tolerance + 0.05);
  }
}

}  // namespace ordinatio::straight_edges_test
