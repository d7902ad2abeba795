#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "bed_plans.h"

namespace ordinatio::marks_test {

namespace {

std::vector<Point> placed(const BedPlan& plan) {
  const auto pockets = place_pockets(plan, 60, 40);
  REQUIRE(pockets.ok());
  auto marks = place_marks(plan, *pockets);
  if (!marks.ok()) FAIL(describe(marks.fault()));
  return *std::move(marks);
}

std::string refused(const BedPlan& plan) {
  const auto pockets = place_pockets(plan, 60, 40);
  REQUIRE(pockets.ok());
  const auto marks = place_marks(plan, *pockets);
  REQUIRE_FALSE(marks.ok());
  CHECK(marks.fault().where == "shop.toml, [marks]");
  CHECK_FALSE(marks.fault().mend.empty());
  return marks.fault().what;
}

std::string refused_at(std::vector<Point> places) {
  BedPlan plan = cut_board();
  plan.marks.places = std::move(places);
  return refused(plan);
}

bool same_places(std::vector<Point> a, std::vector<Point> b) {
  return std::ranges::is_permutation(a, b, [](Point p, Point q) { return length(p - q) < 1e-9; });
}

}  // namespace

TEST_CASE("marks that are not placed stand near the bed's corners, wholly on it") {
  BedPlan plan = cut_board();
  plan.marks.count = 3;
  CHECK(placed(plan) == std::vector<Point>{{8, 8}, {292, 8}, {8, 180}});
  plan.marks.count = 4;
  CHECK(placed(plan) == std::vector<Point>{{8, 8}, {292, 8}, {8, 192}, {280, 192}});
}

TEST_CASE("marks that are not placed look otherwise when the sheet is mirrored or turned") {
  for (const int count : {3, 4}) {
    BedPlan plan = cut_board();
    plan.marks.count = count;
    const std::vector<Point> marks = placed(plan);
    for (const auto& [x, y] : {std::pair{-1.0, 1.0}, {1.0, -1.0}, {-1.0, -1.0}}) {
      std::vector<Point> changed;
      for (const Point p : marks) changed.push_back({x > 0 ? p.x : 300 - p.x, y > 0 ? p.y : 200 - p.y});
      CHECK_FALSE(same_places(marks, changed));
    }
  }
}

TEST_CASE("on a square bed too, where a sheet may be mirrored across its corners") {
  for (const int count : {3, 4}) {
    BedPlan plan = cut_board();
    plan.machine = {300, 300};
    plan.marks.count = count;
    const std::vector<Point> marks = placed(plan);
    std::vector<Point> quarter, half, transposed, other;
    for (const Point p : marks) {
      quarter.push_back({300 - p.y, p.x});
      half.push_back({300 - p.x, 300 - p.y});
      transposed.push_back({p.y, p.x});
      other.push_back({300 - p.y, 300 - p.x});
    }
    INFO(count << " marks");
    CHECK_FALSE(same_places(marks, quarter));
    CHECK_FALSE(same_places(marks, half));
    CHECK_FALSE(same_places(marks, transposed));
    CHECK_FALSE(same_places(marks, other));
  }
}

TEST_CASE("marks stand where the workshop puts them") {
  BedPlan plan = cut_board();
  plan.marks.places = {{4, 4}, {296, 196}, {20, 150}};
  CHECK(placed(plan) == plan.marks.places);

  // Between two columns of pockets, touching both.
  plan.marks.size = 20;
  plan.marks.places = {{10, 10}, {290, 190}, {20, 150}, {110, 105}};
  CHECK(placed(plan) == plan.marks.places);
}

TEST_CASE("fewer than three marks, or more than four, are refused") {
  CHECK(refused_at({{10, 10}, {290, 10}}) == "there are 2 marks");
  CHECK(refused_at({{10, 10}, {290, 10}, {10, 190}, {290, 190}, {150, 190}}) == "there are 5 marks");
}

TEST_CASE("marks in one line are refused, and those nearly so") {
  CHECK(refused_at({{10, 10}, {150, 10}, {290, 10}}) == "the marks stand in one line");
  CHECK(refused_at({{10, 10}, {150, 100.0001}, {290, 190}}) == "the marks stand in one line");
  CHECK(refused_at({{10, 10}, {10, 10}, {290, 10}}) == "the marks stand in one line");
  CHECK(refused_at({{10, 10}, {10, 10}, {10, 10}}) == "the marks stand in one line");
  BedPlan plan = cut_board();
  plan.marks.places = {{10, 10}, {150, 14}, {290, 10}};
  CHECK(placed(plan).size() == 3);
}

TEST_CASE("a mark off the bed is refused by its number, on every side") {
  const Point good[] = {{10, 10}, {290, 10}};
  for (const Point bad : {Point{3.9, 190}, {296.1, 190}, {150, 3.9}, {150, 196.1}}) {
    CHECK(refused_at({good[0], good[1], bad}) == "mark 3 is off the bed");
    CHECK(refused_at({bad, good[0], good[1]}) == "mark 1 is off the bed");
  }
}

TEST_CASE("a mark under a pocket is refused, though only its arm lies there, and one beside it is not") {
  BedPlan plan = cut_board();
  const Point good[] = {{10, 10}, {290, 10}};
  CHECK(refused_at({good[0], good[1], {70, 70}}) == "mark 3 lies under pocket 4");
  CHECK(refused_at({good[0], good[1], {36.1, 70}}) == "mark 3 lies under pocket 4");
  CHECK(refused_at({good[0], good[1], {70, 163.9}}) == "mark 3 lies under pocket 1");
  plan.marks.places = {good[0], good[1], {36, 70}};
  CHECK(placed(plan).size() == 3);
}

TEST_CASE("marks near the corners of a bed that pockets fill to its edge are refused") {
  CHECK(refused(filled_bed(300, 200, 10, 5, Jig::Lie::as_drawn)).find("lies under pocket") != std::string::npos);
}

TEST_CASE("a mark is as large as asked for, and of its kind") {
  const Point centre{30, 20};
  for (const auto kind : {MarkPlan::Kind::cross, MarkPlan::Kind::ring, MarkPlan::Kind::target}) {
    const Bounds box = bounds_of(mark_path(kind, 8, centre));
    CHECK(box.left == Approx(26));
    CHECK(box.right == Approx(34));
    CHECK(box.bottom == Approx(16));
    CHECK(box.top == Approx(24));
  }
  const auto contours = [&](MarkPlan::Kind kind) { return flatten(mark_path(kind, 8, centre), 0.001); };
  CHECK(contours(MarkPlan::Kind::cross).size() == 2);
  CHECK(contours(MarkPlan::Kind::ring).size() == 1);
  CHECK(contours(MarkPlan::Kind::target).size() == 3);
}

TEST_CASE("a ring is round") {
  const auto ring = flatten(mark_path(MarkPlan::Kind::ring, 8, {30, 20}), 1e-4);
  REQUIRE(ring.size() == 1);
  CHECK(ring[0].closed);
  // Eighths of a circle as cubics are off by 4e-6 of the radius at most.
  for (const Point p : ring[0].points) CHECK(std::abs(length(p - Point{30, 20}) - 4) < 4 * 5e-6);
}

}  // namespace ordinatio::marks_test
