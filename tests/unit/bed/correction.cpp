#include "bed/correction.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "bed_plans.h"

namespace ordinatio::correction_test {
using Model = Registration::Model;
using Catch::Contains;

namespace {

/// From where a sheet's parts lie to where they would as drawn.
Transform to_drawn(const Sheet& sheet) {
  if (!sheet.correction || sheet.correction->by != Correction::By::marks) return {};
  return inverse(sheet.correction->registration.to_bed);
}

Sheet drawn_sheet() {
  const auto frame = lay_bed(cut_board(), 50, 30);
  REQUIRE(frame.ok());
  auto sheet = build_sheet(*frame, plain_items(6), "sheet-001", 1);
  REQUIRE(sheet.ok());
  return *std::move(sheet);
}

Transform small_turn(double degrees, double scale, Point shift) {
  const double a = degrees * std::numbers::pi / 180, c = scale * std::cos(a), s = scale * std::sin(a);
  return {c, s, -s, c, shift.x, shift.y};
}

std::vector<Point> places_of(const Sheet& sheet, const std::vector<int>& numbers, const Transform& by) {
  std::vector<Point> places;
  for (const int number : numbers) places.push_back(by(sheet.frame.marks[static_cast<std::size_t>(number) - 1]));
  return places;
}

double apart(const Path& a, const Path& b) {
  REQUIRE(std::ranges::equal(a.verbs(), b.verbs()));
  double most = 0;
  for (std::size_t i = 0; i < a.points().size(); ++i) most = std::max(most, length(a.points()[i] - b.points()[i]));
  return most;
}

}  // namespace

TEST_CASE("items, marks and outlines move as the marks were measured; the scale bar stays 100 mm") {
  const Transform by{1.003, 0.01, -0.009, 0.998, 0.7, -0.4};
  const Sheet before = drawn_sheet();
  for (const std::vector<int>& numbers : {std::vector<int>{1, 2, 3, 4}, {4, 1, 2}}) {
    Sheet sheet = before;
    const auto fault = correct(sheet, numbers, places_of(sheet, numbers, by), Model::affine);
    INFO((fault ? describe(*fault) : ""));
    REQUIRE_FALSE(fault);
    REQUIRE(sheet.parts.size() == before.parts.size());
    for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
      CHECK(sheet.parts[i].id == before.parts[i].id);
      if (sheet.parts[i].id == "scale-bar") {
        CHECK(bounds_of(sheet.parts[i].path).width() == Approx(100));
      } else {
        CHECK(apart(sheet.parts[i].path, transformed(before.parts[i].path, by)) < 1e-9);
      }
    }
    for (std::size_t i = 0; i < sheet.items.size(); ++i) {
      const Point p{31, 17};
      CHECK(length(sheet.items[i].to_bed(p) - by(before.items[i].to_bed(p))) < 1e-9);
      CHECK(length(then(sheet.items[i].to_bed, to_drawn(sheet))(p) - before.items[i].to_bed(p)) < 1e-9);
    }
    CHECK(sheet.correction->numbers == numbers);
    CHECK(sheet.frame.marks == before.frame.marks);
  }
}

TEST_CASE("a mark that is not there, or given twice, is refused by its number") {
  const auto told = [](const std::vector<int>& numbers) {
    Sheet sheet = drawn_sheet();
    const auto fault = correct(sheet, numbers, std::vector<Point>(numbers.size(), {10, 10}), Model::rigid);
    REQUIRE(fault);
    CHECK_FALSE(sheet.correction);
    return fault->what;
  };
  CHECK(told({1, 5}) == "there is no mark 5");
  CHECK(told({0, 1}) == "there is no mark 0");
  CHECK(told({2, 1, 2}) == "mark 2 is given twice");
  CHECK(told({1, 2}) == "the measured points lie in one place");
}

TEST_CASE("a correction that would carry a part off the bed is refused, and by name") {
  Sheet sheet = drawn_sheet();
  const std::vector<int> numbers{1, 2, 3, 4};
  const auto fault = correct(sheet, numbers, places_of(sheet, numbers, shift_by({0, -4.5})), Model::rigid);
  REQUIRE(fault);
  CHECK(fault->what == "registration mark 1 would leave the bed");
  Sheet near = drawn_sheet();
  CHECK_FALSE(correct(near, numbers, places_of(near, numbers, shift_by({0, -4})), Model::rigid));
}

TEST_CASE("a piece laid by hand is engraved where its corners are, without pockets and marks") {
  const Transform by = small_turn(37, 1, {120, 40});
  const std::vector<Point> corners{by(Point{0, 0}), by(Point{50, 0}), by(Point{50, 30}), by(Point{0, 30})};
  for (const std::size_t count : {2U, 4U}) {
    const std::vector<Point> measured(corners.begin(), corners.begin() + static_cast<std::ptrdiff_t>(count));
    const auto sheet = lay_by_hand(cut_board(), plain_item("1042-1"), measured, "remake-1042-1");
    if (!sheet.ok()) FAIL(describe(sheet.fault()));
    CHECK(sheet->frame.pockets.empty());
    CHECK(sheet->frame.marks.empty());
    REQUIRE(sheet->items.size() == 1);
    CHECK(sheet->items[0].pocket == 0);
    CHECK(apart(sheet->parts[0].path, transformed(plain_item("1").artwork.layers[0].path, by)) < 1e-9);
    CHECK(sheet->parts[0].title == "item 1042-1, laid by hand");
    CHECK(sheet->correction->by == Correction::By::corners);
    CHECK(to_drawn(*sheet) == Transform{});
    const auto bar = std::ranges::find(sheet->parts, "scale-bar", &SheetPart::id);
    const auto blank = std::ranges::find(sheet->parts, "blank-0", &SheetPart::id);
    REQUIRE(bar != sheet->parts.end());
    CHECK_FALSE(overlap(bounds_of(bar->path), bounds_of(blank->path)));
  }
}

TEST_CASE("a piece that is 1 mm shorter than its drawing is engraved in its middle, and what is left is told") {
  const auto sheet =
      lay_by_hand(cut_board(), plain_item("1042-1"), {{100, 50}, {149, 50}, {149, 80}, {100, 80}}, "remake-1042-1");
  REQUIRE(sheet.ok());
  const Registration& registration = sheet->correction->registration;
  CHECK(length(registration.to_bed(Point{25, 15}) - Point{124.5, 65}) < 1e-9);
  for (const Point residual : registration.residuals) CHECK(std::abs(std::abs(residual.x) - 0.5) < 1e-9);
}

TEST_CASE("three corners, a piece off the bed and corners the wrong way round are refused") {
  const auto told = [](const std::vector<Point>& corners) {
    const auto sheet = lay_by_hand(cut_board(), plain_item("1042-1"), corners, "remake-1042-1");
    REQUIRE_FALSE(sheet.ok());
    return sheet.fault().what;
  };
  CHECK(told({{100, 50}, {150, 50}, {150, 80}}) == "3 corners were measured");
  CHECK_THAT(told({{280, 50}, {330, 50}}), Contains("would leave the bed"));
  CHECK_THAT(told({{100, 50}, {100, 80}, {150, 80}, {150, 50}}), Contains("mirrored"));
}

}  // namespace ordinatio::correction_test
