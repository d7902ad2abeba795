#include <catch2/catch.hpp>

#include "followed.h"
#include "strokes/strokes.h"

namespace ordinatio::hatch_test {
namespace {

Path polygon(const Polygon& corners) { return path_of(Polygons{corners}); }

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

/// Four cubics, within 0.03 % of the circle's radius.
Path disc(Point middle, double r) {
  constexpr double k = 0.5522847498;
  const auto at = [&](double x, double y) { return middle + Point{r * x, r * y}; };
  Path path;
  path.move_to(at(1, 0));
  path.cubic_to(at(1, k), at(k, 1), at(0, 1));
  path.cubic_to(at(-k, 1), at(-1, k), at(-1, 0));
  path.cubic_to(at(-1, -k), at(-k, -1), at(0, -1));
  path.cubic_to(at(k, -1), at(1, -k), at(1, 0));
  path.close();
  return path;
}

Path ring(double outer, double inner) {
  Path path = disc({20, 20}, outer);
  path.append(reversed(disc({20, 20}, inner)));
  return path;
}

/// A thick S of curves and straights with an inner turn each way.
Path snake() {
  Path path;
  path.move_to({0, 0});
  path.line_to({9, 0});
  path.cubic_to({14, 0}, {14, 7}, {9, 7});
  path.line_to({4, 7});
  path.cubic_to({2.5, 7}, {2.5, 10}, {4, 10});
  path.line_to({12, 10});
  path.line_to({12, 12});
  path.line_to({3, 12});
  path.cubic_to({-1, 12}, {-1, 5}, {3, 5});
  path.line_to({8.5, 5});
  path.cubic_to({10.5, 5}, {10.5, 2}, {8.5, 2});
  path.line_to({0, 2});
  path.close();
  return path;
}

Path h_letter() {
  return polygon(
      {{0, 0}, {3, 0}, {3, 5}, {9, 5}, {9, 0}, {12, 0}, {12, 12}, {9, 12}, {9, 8}, {3, 8}, {3, 12}, {0, 12}});
}

Path good(Result<Path> lines) {
  if (!lines.ok()) FAIL(describe(lines.fault()));
  return *std::move(lines);
}

Path rows(const Path& ink, double angle, double pitch, double spot = 0.2) {
  return good(hatched(ink, {angle, pitch, 1, spot, false}));
}

}  // namespace

TEST_CASE("a rectangle's rows are known by hand: their number, their length, and one stroke for all") {
  // 20 × 10 less 0.1 + 0.002 all round; rows at 0.25, 0.75, …: those from 0.25 to 9.75.
  const Path lines = rows(box(0, 0, 20, 10), 0, 0.5);
  CHECK(strokes_of(lines) == 1);
  CHECK(rows_length(lines, 0, 0.5) == Approx(20 * (20 - 0.204)).epsilon(1e-6));
  CHECK(lines.points().size() == 40);  // each row's two ends: what joins them is straight
  const Bounds box = bounds_of(lines);
  CHECK(box.left == Approx(0.102).margin(1e-4));
  CHECK(box.bottom == Approx(0.25).margin(1e-9));
  CHECK(box.top == Approx(9.75).margin(1e-9));
}

TEST_CASE("strokes are as few as simple shapes allow") {
  struct Case {
    const char* name;
    Path ink;
    double angle;
    std::size_t strokes;
  };
  const Case cases[] = {
      {"disc", disc({20, 20}, 10), 30, 1},
      {"ring: up one side and over the top, then the other side", ring(10, 6), 0, 2},
      {"L", polygon({{0, 0}, {12, 0}, {12, 3}, {3, 3}, {3, 12}, {0, 12}}), 0, 1},
      {"U: up one arm, then the other", polygon({{0, 0}, {12, 0}, {12, 12}, {9, 12}, {9, 3}, {3, 3}, {3, 12}, {0, 12}}),
       0, 2},
      {"H: a leg, the bar and an arm in one, then a leg and an arm", h_letter(), 0, 3},
      {"two boxes",
       [] {
         Path two = box(0, 0, 5, 5);
         two.append(box(7, 0, 12, 5));
         return two;
       }(),
       0, 2},
  };
  for (const Case& one : cases) {
    INFO(one.name);
    CHECK(strokes_of(rows(one.ink, one.angle, 0.3)) == one.strokes);
  }
}

TEST_CASE("no part of the spot leaves the ink by more than 1 µm, at any angle") {
  for (const Path& ink : {ring(5, 3), snake()}) {
    const Polygons covered = weld(polygons_of(ink, 2e-4), 1e-6);
    for (const double angle : {17.0, 135.5}) {
      INFO(angle << "°");
      CHECK(least_depth(good(hatched(ink, {angle, 0.37, 2, 0.2, true})), covered, 0.2) >= 0.1 - 0.001);
    }
  }
}

TEST_CASE("rows times pitch is the area they lie in, within 1 %") {
  for (const Path& ink : {ring(10, 6), snake(), h_letter()}) {
    const double area = area_of(spot_area(ink, 0.2));
    for (const double angle : {17.0, 45.0, 135.5}) {
      for (const double pitch : {0.1, 0.2}) {
        INFO(angle << "°, pitch " << pitch);
        CHECK(rows_length(rows(ink, angle, pitch), angle, pitch) * pitch == Approx(area).epsilon(0.01));
      }
    }
  }
}

TEST_CASE("rows no further apart than the spot is wide cover the ink, within 1 %") {
  for (const Path& ink : {ring(3, 2), h_letter()}) {
    const double area = area_of(weld(polygons_of(ink, 1e-3), 1e-5));
    CHECK(swept_area(good(hatched(ink, {45, 0.36, 1, 0.4, true})), 0.4) == Approx(area).epsilon(0.01));
  }
}

TEST_CASE("the second direction runs crosswise, and the edge is followed where it is asked for") {
  const Path ink = box(0, 0, 6, 6);
  const Path both = good(hatched(ink, {30, 0.4, 2, 0.2, true}));
  const double inside = 5.796 * 5.796;
  CHECK(rows_length(both, 30, 0.4) * 0.4 == Approx(inside).epsilon(0.02));
  CHECK(rows_length(both, 120, 0.4) * 0.4 == Approx(inside).epsilon(0.02));
  CHECK(std::ranges::count(both.verbs(), Path::Verb::close) == 1);
  CHECK(std::ranges::count(good(hatched(ink, {30, 0.4, 2, 0.2, false})).verbs(), Path::Verb::close) == 0);
}

TEST_CASE("ink that overlaps is hatched once, and what the spot does not fit into not at all") {
  Path twice = box(0, 0, 6, 6);
  twice.append(box(5.95, 0, 9, 6));  // by less than the spot is wide
  CHECK(rows_length(rows(twice, 0, 0.5), 0, 0.5) == Approx(rows_length(rows(box(0, 0, 9, 6), 0, 0.5), 0, 0.5)));
  CHECK(rows(box(0, 0, 9, 0.19), 45, 0.1).empty());
}

TEST_CASE("a pitch far too small for an area is refused by the limit's name") {
  const Result<Path> lines = hatched(box(0, 0, 9'000, 9'000), {0, 0.005, 1, 0.1, true});
  REQUIRE_FALSE(lines.ok());
  CHECK(describe(lines.fault()).find("more than 500000 rows") != std::string::npos);
}

}  // namespace ordinatio::hatch_test
