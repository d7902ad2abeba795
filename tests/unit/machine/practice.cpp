// What workshops say of their machines: common practice, no source. And how the model is fitted to a timed bed.
#include <catch2/catch.hpp>
#include <cmath>

#include "machine/spell.h"
#include "rectangles.h"

namespace ordinatio::practice_test {

namespace {

/// A plaque with some forty square centimetres of lettering, as bars: 40 of 60 × 1 mm.
Sheet plaque() {
  std::vector<Bounds> bars;
  for (int i = 0; i < 40; ++i) bars.push_back({10, 10 + 2.0 * i, 70, 11 + 2.0 * i});
  Sheet sheet = sheet_of(bars);
  Path lettering;
  for (const SheetPart& part : sheet.parts) lettering.append(part.path);
  sheet.parts.resize(1);
  sheet.items.resize(1);
  sheet.parts.front().path = lettering;
  return sheet;
}

Motion at(double speed_mm_min) {
  Motion motion = plain_motion();
  motion.scan_speed = *speed_in(std::to_string(static_cast<int>(speed_mm_min)) + " mm/min");
  motion.travel_speed = std::max(50.0, motion.scan_speed), motion.acceleration = 2000;
  return motion;
}

}  // namespace

TEST_CASE("500 mm/s are 30,000 mm/min") {
  CHECK(speed_in("500 mm/s") == 500);
  CHECK(*speed_in("30000 mm/min") == Approx(500));
  CHECK(*speed_in("1000 mm/min") == Approx(16.6667));
}

TEST_CASE("calibrated on an hour a plaque at 1,000 mm/min, three times the speed takes a third while speed limits") {
  Motion slow = at(1000);
  const double told = time_of(plaque(), slow).seconds;
  const Fit fit = fit_factor({{told, 3600}});
  slow.factor = fit.factor;
  CHECK(time_of(plaque(), slow).seconds == Approx(3600));
  Motion thrice = at(3000);
  thrice.factor = fit.factor;
  CHECK(time_of(plaque(), thrice).seconds == Approx(1200).epsilon(0.05));
  // Where it stops: a line of 60 mm takes w/v + 2v/a, the shortest at v = √(w·a/2) = 245 mm/s, 14,700 mm/min. There run-up
  // and run-out take as long as the ink does, and a third more speed costs time.
  double last = 3600, best = 0;
  for (const double speed : {3000.0, 6000.0, 12000.0, 14700.0}) {
    Motion faster = at(speed);
    faster.factor = fit.factor;
    const double seconds = time_of(plaque(), faster).seconds;
    CHECK(seconds < last);
    CHECK(seconds > 3600 * 1000 / speed);  // never the whole gain
    last = best = seconds;
  }
  Motion too_fast = at(20000);
  too_fast.factor = fit.factor;
  CHECK(time_of(plaque(), too_fast).seconds > best);
  // At 30,000 mm/min a thirtieth would be two minutes; run-up and steps make more than thrice that of it.
  Motion rated = at(30000);
  rated.factor = fit.factor;
  CHECK(time_of(plaque(), rated).seconds > 3 * 120);
}

TEST_CASE("the factor is the least squares of beds that were timed, and its error what is left of them") {
  CHECK(fit_factor({{3600, 4320}}).factor == Approx(1.2));
  CHECK(fit_factor({{3600, 4320}}).error == Approx(0).margin(1e-12));
  // Σ told·took / Σ told² = (1·1.1 + 2·2.4) / (1 + 4) = 1.18; left are −0.08 and 0.04.
  const Fit fit = fit_factor({{1, 1.1}, {2, 2.4}});
  CHECK(fit.factor == Approx(1.18));
  CHECK(fit.error == Approx(std::sqrt((0.08 * 0.08 + 0.04 * 0.04) / (1.1 * 1.1 + 2.4 * 2.4))));
  CHECK(fit_factor({}).factor == 1);
}

TEST_CASE("the factor is in every time alike") {
  Motion motion = plain_motion();
  const SheetTime before = time_of(sheet_of({{0, 0, 60, 40}, {80, 0, 140, 40}}), motion);
  motion.factor = 1.5;
  const SheetTime after = time_of(sheet_of({{0, 0, 60, 40}, {80, 0, 140, 40}}), motion);
  CHECK(after.seconds == Approx(1.5 * before.seconds));
  for (std::size_t i = 0; i < all_groupings.size(); ++i) {
    CHECK(after.groupings[i] == Approx(1.5 * before.groupings[i]));
  }
  for (std::size_t i = 0; i < 2; ++i) CHECK(after.items[i].seconds == Approx(1.5 * before.items[i].seconds));
  const double scored = time_of(sheet_of({{0, 0, 60, 40}}, Operation::score), plain_motion()).seconds;
  CHECK(time_of(sheet_of({{0, 0, 60, 40}}, Operation::score), motion).seconds == Approx(1.5 * scored));
}

TEST_CASE("times are told to the minute and read with their units") {
  CHECK(time_text(0) == "under a minute");
  CHECK(time_text(29) == "under a minute");
  CHECK(time_text(31) == "1 min");
  CHECK(time_text(5700) == "1 h 35 min");
  CHECK(time_text(7190) == "2 h");
  CHECK(time_text(360'000) == "100 h");
  for (const auto& [text, seconds] : {std::pair("1h35m", 5700.0),
                                      {"1 h 35 min", 5700.0},
                                      {"95min", 5700.0},
                                      {"1.5 h", 5400.0},
                                      {"20 ms", 0.02},
                                      {"40 s", 40.0},
                                      {"1h 2m 3s", 3723.0}}) {
    INFO(text);
    CHECK(time_in(text).value_or(-1) == Approx(seconds));
  }
  for (const char* text :
       {"", "95", "1h35", "35m1h", "1h1h", "-5 min", "nan h", "1e999 h", "an hour", "h", "5 5 min"}) {
    INFO(text);
    CHECK_FALSE(time_in(text));
  }
}

TEST_CASE("a speed without its unit, or with another, is none") {
  for (const char* text :
       {"", "300", "300 mm", "300 m/s", "mm/s", "300 mm/s mm/min", "inf mm/s", "nan mm/s", "3,5 mm/s"}) {
    INFO(text);
    CHECK_FALSE(speed_in(text));
  }
  CHECK(acceleration_in("3000 mm/s2") == 3000);
  CHECK(acceleration_in("3000 mm/s²") == 3000);
  CHECK_FALSE(acceleration_in("3000 mm/s"));
  CHECK(*speed_in("-5 mm/s") == -5);  // its range is judged where it is read
}

TEST_CASE("days are counted on the calendar") {
  CHECK(day_after("2026-11-25", 0) == "2026-11-25");
  CHECK(day_after("2026-11-25", 6) == "2026-12-01");
  CHECK(day_after("2028-02-28", 1) == "2028-02-29");
  CHECK(day_after("2027-02-28", 1) == "2027-03-01");
  for (const char* day : {"2026-02-30", "2026-13-01", "26-01-01", "2026/01/01", "0000-01-01", "2026-1 -01", ""}) {
    INFO(day);
    CHECK_FALSE(day_after(day, 0));
  }
  CHECK_FALSE(day_after("9999-12-31", 1));
}

}  // namespace ordinatio::practice_test
