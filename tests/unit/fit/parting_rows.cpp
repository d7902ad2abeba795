#include "fit/parting.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

namespace ordinatio::parting_rows_test {

namespace {

Polygon random_hull_about(std::mt19937& random, Point middle, double width, double height) {
  std::uniform_real_distribution<double> share(-1, 1);
  std::vector<Point> points(14);
  for (Point& p : points) p = middle + Point{width * share(random), height * share(random)};
  return hull_of(std::move(points)).vertices;
}

double miss(const FitRow& row, double scale, Point shift) {
  return row.support * scale + dot(row.normal, shift) - row.offset;
}

Point mean(const Polygon& polygon) {
  Point sum;
  for (const Point p : polygon) sum = sum + p;
  return 1 / static_cast<double>(polygon.size()) * sum;
}

/// A long flat part, so that the edges through which rays leave change with the scale.
struct Meeting {
  Polygon part, obstacle;
  Parting parting{part, obstacle};
  [[nodiscard]] Point middle(double scale) const { return mean(obstacle) - scale * mean(part); }
};

Meeting random_meeting(std::mt19937& random) {
  return {random_hull_about(random, {0.3, -0.2}, 1, 0.1), random_hull_about(random, {0.4, 0.1}, 0.15, 0.3)};
}

}  // namespace

TEST_CASE("the widest gap is what lies between a part and an obstacle") {
  std::mt19937 random(41);
  std::uniform_real_distribution<double> place(-1.5, 1.5), any_scale(0.05, 1);
  for (int round = 0; round < 2000; ++round) {
    const Meeting meeting = random_meeting(random);
    const double scale = any_scale(random);
    const Point shift{place(random), place(random)};
    ConvexHull there;
    for (const Point p : meeting.part) there.vertices.push_back(scale * p + shift);
    const Parting::Gap gap = meeting.parting.widest_gap(scale, shift);
    REQUIRE(overlap(there, {meeting.obstacle}, 0) == (gap.width < 0));
    REQUIRE(miss(meeting.parting.beyond(gap.edge), scale, shift) == Approx(-gap.width).margin(1e-12));
  }
}

TEST_CASE("whatever is parted in a wedge satisfies the wedge's rows, and one of the edges that face it") {
  std::mt19937 random(42);
  std::uniform_real_distribution<double> angle(0, 6.283), width(0.02, 2.5), share(0, 1), any_scale(0.02, 1);
  int parted = 0;
  for (int round = 0; round < 20'000; ++round) {
    const Meeting meeting = random_meeting(random);
    const double from = angle(random), to = from + width(random);
    const Wedge wedge{{std::cos(from), std::sin(from)}, {std::cos(to), std::sin(to)}};
    const double one = any_scale(random), other = any_scale(random), scale = one + share(random) * (other - one);
    const double low = std::min(one, other), high = std::max(one, other);
    const double toward = from + share(random) * (to - from), reach = 1.5 * share(random);
    const Point shift = meeting.middle(scale) + reach * Point{std::cos(toward), std::sin(toward)};
    REQUIRE(miss(meeting.parting.left_of(wedge.from), scale, shift) <= 1e-12);
    REQUIRE(miss(meeting.parting.right_of(wedge.to), scale, shift) <= 1e-12);
    if (meeting.parting.widest_gap(scale, shift).width < 0) continue;
    ++parted;
    REQUIRE(miss(meeting.parting.beyond_chord(wedge, low, high), scale, shift) <= 1e-12);
    const Parting::Run run = meeting.parting.edges_facing(wedge, low, high);
    bool beyond_one = false;
    for (std::size_t i = 0; i < run.count; ++i) {
      const std::size_t edge = (run.first + i) % meeting.parting.edges();
      beyond_one = beyond_one || miss(meeting.parting.beyond(edge), scale, shift) <= 1e-12;
    }
    REQUIRE(beyond_one);
  }
  CHECK(parted > 5000);
}

}  // namespace ordinatio::parting_rows_test
