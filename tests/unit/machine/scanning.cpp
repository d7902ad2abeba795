// Filled engraving against closed forms that are written out here. [M]: from memory; the rest is elementary kinematics.
#include <catch2/catch.hpp>
#include <cmath>

#include "rectangles.h"

namespace ordinatio::scanning_test {

namespace {

double engraved(const std::vector<Bounds>& boxes, const Motion& motion) {
  return time_of(sheet_of(boxes), motion).seconds;
}

double in_grouping(const SheetTime& time, Grouping grouping) {
  return time.groupings[static_cast<std::size_t>(grouping)];
}

/// A contour that turns the other way round.
Path frame(const Bounds& outer, const Bounds& inner) {
  Path path, hole;
  path.add_rectangle(outer);
  hole.add_rectangle(inner);
  path.append(reversed(hole));
  return path;
}

}  // namespace

TEST_CASE("a rectangle takes its lines, each with run-up and run-out, and a step from line to line") {
  // 80 × 30 mm at 0.1 mm, 300 mm/s and 3,000 mm/s²: 300 lines of w/v + 2·v/a = 80/300 + 2 · 300/3000 = 0.46667 s, 140 s of
  // them; between them 299 steps of 0.1 mm from rest to rest, 2·√(d/a) = 2·√(0.1/3000) = 0.011547 s.
  const double lines = 300 * (80.0 / 300 + 2 * 300.0 / 3000), steps = 299 * 2 * std::sqrt(0.1 / 3000);
  CHECK(lines == Approx(140));
  CHECK(engraved({{10, 20, 90, 50}}, plain_motion()) == Approx(lines + steps).epsilon(1e-9));
}

TEST_CASE("settling comes with each turn, a longer run-up at the steady speed") {
  Motion motion = plain_motion();
  const double before = engraved({{10, 20, 90, 50}}, motion);
  motion.settle = 0.02;
  CHECK(engraved({{10, 20, 90, 50}}, motion) - before == Approx(299 * 0.02).epsilon(1e-9));
  motion.settle = 0, motion.run_up = 18;  // 3 mm more than 15, before and after each line
  CHECK(engraved({{10, 20, 90, 50}}, motion) - before == Approx(300 * 2 * 3.0 / 300).epsilon(1e-9));
}

TEST_CASE("one way, each line but the last has its way back") {
  Motion motion = plain_motion();
  motion.both_ways = false;
  // Back from 15 mm right of the ink to 15 mm left of it, and a line up: √(110² + 0.1²) mm, which is more than v²/a = 83.3.
  const double back = std::hypot(110, 0.1) / 500 + 500.0 / 3000;
  const double lines = 300 * (80.0 / 300 + 2 * 300.0 / 3000);
  CHECK(engraved({{10, 20, 90, 50}}, motion) == Approx(lines + 299 * back).epsilon(1e-9));
}

TEST_CASE("without inertia a rectangle takes its area over speed and pitch, and the way up") {
  Motion motion = plain_motion();
  motion.acceleration = 1e12;
  const double area_time = 80 * 30.0 / (300 * 0.1), way_up = 29.9 / 500;
  CHECK(engraved({{10, 20, 90, 50}}, motion) == Approx(area_time + way_up).epsilon(1e-6));
  motion.travel_speed = 1e12;
  CHECK(engraved({{10, 20, 90, 50}}, motion) == Approx(area_time).epsilon(1e-5));
}

TEST_CASE(
    "lines lie half a pitch inside, wherever the piece lies on the bed's grid, and none is lost or counted twice") {
  for (const double pitch : {0.05, 0.08, 0.1, 0.127}) {
    Motion motion = plain_motion();
    motion.scan_pitch = pitch;
    for (const double bottom : {0.0, 20.01, 33.337, 299.999}) {
      const std::size_t lines = time_of(sheet_of({{10, bottom, 20, bottom + 100 * pitch}}), motion).scan_lines;
      INFO(pitch << ' ' << bottom);
      CHECK(lines == 100);
    }
  }
}

TEST_CASE("a hole is crossed at the speed of the scan, or passed by where the travel is shorter") {
  // A frame of 10 mm around a hole, 400 lines of 60 mm; the middle 200 cross a hole.
  const auto time_with_hole = [](double width, const Motion& motion) {
    Sheet sheet = sheet_of({{0, 0, width + 20, 40}});
    sheet.parts.front().path = frame({0, 0, width + 20, 40}, {10, 10, 10 + width, 30});
    return time_of(sheet, motion).seconds;
  };
  Motion motion = plain_motion();
  // Gaps of 40 mm, under 2·v²/a = 60 mm: the hole costs what ink does.
  CHECK(time_with_hole(40, motion) == Approx(engraved({{0, 0, 60, 40}}, motion)).epsilon(1e-9));
  // Gaps of 400 mm at 100 mm/s, travelled at 2,000 mm/s: out and in 2·v/a, and 400 − v²/a mm between.
  motion.scan_speed = 100, motion.travel_speed = 2000;
  const double out_and_in = 2 * 100.0 / 3000, between = 2 * std::sqrt((400 - 100.0 * 100 / 3000) / 3000);
  const double saved = 200 * (400.0 / 100 - (out_and_in + between));
  CHECK(engraved({{0, 0, 420, 40}}, motion) - time_with_hole(400, motion) == Approx(saved).epsilon(1e-9));
}

TEST_CASE("neighbours share their lines while their gap is under 2 v² / a") {
  // 2 · 300² / 3000 = 60 mm: two squares nearer than that go together, farther apart each by itself.
  for (const auto& [gap, together] : {std::pair(20.0, true), {55.0, true}, {65.0, false}, {200.0, false}}) {
    Motion motion = plain_motion();
    motion.travel_speed = motion.scan_speed;
    const SheetTime time = time_of(sheet_of({{0, 0, 50, 50}, {50 + gap, 0, 100 + gap, 50}}), motion);
    INFO(gap);
    CHECK((in_grouping(time, Grouping::rows) < in_grouping(time, Grouping::pieces)) == together);
    CHECK((time.best == Grouping::rows) == together);
  }
}

TEST_CASE("a row of pockets is the sum of what was written out, whichever way it is grouped") {
  const Motion motion = plain_motion();
  // Two squares of 50 mm, 20 mm apart, over another: 500 lines a row.
  const SheetTime time = time_of(sheet_of({{0, 0, 50, 50}, {70, 0, 120, 50}, {0, 100, 50, 150}}), motion);
  const double step = 2 * std::sqrt(0.1 / 3000), run = 2 * 300.0 / 3000;
  const double alone = 500 * (50.0 / 300 + run) + 499 * step, pair = 500 * (120.0 / 300 + run) + 499 * step;
  // 500 lines end where they began, on the left at x − 15. To the second square's first line 70 mm right and 49.9 mm down, to
  // the third's from there 70 mm left and 50.1 mm up.
  const auto way = [](double across, double up) {
    const double d = std::hypot(across, up);
    return d >= 500.0 * 500 / 3000 ? d / 500 + 500.0 / 3000 : 2 * std::sqrt(d / 3000);
  };
  CHECK(in_grouping(time, Grouping::pieces) == Approx(3 * alone + way(70, 49.9) + way(70, 50.1)).epsilon(1e-9));
  CHECK(in_grouping(time, Grouping::rows) == Approx(pair + alone + way(0, 50.1)).epsilon(1e-9));
  CHECK(in_grouping(time, Grouping::bed) == Approx(in_grouping(time, Grouping::rows)).epsilon(1e-9));
  CHECK(time.best == Grouping::rows);  // alike, it is done with a row sooner
}

TEST_CASE("items share their sheet's engraving by what each would take alone, and come to all of it") {
  const SheetTime time = time_of(sheet_of({{0, 0, 50, 50}, {70, 0, 120, 50}, {0, 100, 50, 125}}), plain_motion());
  REQUIRE(time.items.size() == 3);
  CHECK(time.items[0].seconds == Approx(time.items[1].seconds));
  CHECK(time.items[0].seconds == Approx(2 * time.items[2].seconds).epsilon(1e-4));
  CHECK(time.items[0].seconds + time.items[1].seconds + time.items[2].seconds == Approx(time.seconds));
}

TEST_CASE("what is filled twice is filled once, and no gap") {
  Motion motion = plain_motion();
  motion.acceleration = 1e12, motion.travel_speed = 1e12;  // what is no ink costs nothing
  const double once = 30 * 30.0 / (300 * 0.1);
  Sheet sheet = sheet_of({{0, 0, 30, 30}});
  Path twice;
  twice.add_rectangle({0, 0, 20, 30});
  twice.add_rectangle({10, 0, 30, 30});  // the same way round
  sheet.parts.front().path = twice;
  CHECK(time_of(sheet, motion).seconds == Approx(once).epsilon(1e-5));
  // Two items over one another, and one in another, in one go: the union.
  for (const Bounds& other : {Bounds{10, 0, 30, 30}, {20, 0, 30, 30}, {5, 0, 15, 30}}) {
    const SheetTime over = time_of(sheet_of({{0, 0, other.right > 20 ? 20.0 : 30.0, 30}, other}), motion);
    CHECK(in_grouping(over, Grouping::bed) == Approx(once).epsilon(1e-5));
  }
}

TEST_CASE("area on scan lines is the artwork's: a circle's lines add up to its area") {
  Sheet sheet = sheet_of({{0, 0, 1, 1}});
  Path circle;
  constexpr double r = 20, k = 0.5522847498307936 * r;  // four cubics, radius within 0.03 % [M]
  circle.move_to({r, 0});
  circle.cubic_to({r, k}, {k, r}, {0, r});
  circle.cubic_to({-k, r}, {-r, k}, {-r, 0});
  circle.cubic_to({-r, -k}, {-k, -r}, {0, -r});
  circle.cubic_to({k, -r}, {r, -k}, {r, 0});
  circle.close();
  sheet.parts.front().path = circle;
  Motion motion = plain_motion();
  motion.acceleration = 1e12, motion.travel_speed = 1e12;
  CHECK(time_of(sheet, motion).seconds == Approx(M_PI * r * r / (300 * 0.1)).epsilon(1e-3));
}

TEST_CASE("what is thinner than a scan line, or nothing, takes no time") {
  CHECK(engraved({{0, 0.06, 50, 0.14}}, plain_motion()) == 0);
  const SheetTime none = time_of(Sheet{}, plain_motion());
  CHECK(none.seconds == 0);
  CHECK(none.operations.empty());
}

TEST_CASE("lines that are too many to be gone through are told, and are in no sum") {
  Motion motion = plain_motion();
  motion.scan_pitch = 0.01;
  std::vector<Bounds> bars;
  for (int i = 0; i < 30; ++i) bars.push_back({i * 10.0, 0, i * 10.0 + 5, 10'000});
  Sheet sheet = sheet_of(bars);
  CHECK(time_of(sheet, motion).untold.size() == 1);
  CHECK(time_of(sheet, motion).seconds == 0);
  motion.scan_speed = 0;
  REQUIRE(time_of(sheet, motion).untold.size() == 1);
  CHECK(time_of(sheet, motion).untold.front().why == "no speed is told for it");
}

}  // namespace ordinatio::scanning_test
