#include <catch2/catch.hpp>

#include "check/check.h"
#include "check/ink.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::intrusion_test {

namespace {

const ClearArea area{{{{{-1, 0}, 0}, {{0, -1}, 0}, {{1, 0}, 100}, {{0, 1}, 60}}},
                     {{{{40, 20}, {60, 20}, {60, 30}, {40, 30}}}}};

double excess_of(const Path& path, const ClearArea& there, bool filled) {
  return excess(path, measure(path, Measure::area).bounds, there, 0.01, filled);
}

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

}  // namespace

TEST_CASE("ink is seen where it crosses an obstacle, lies in it, and covers it") {
  CHECK(excess_of(box(10, 10, 39, 50), area, true) <= 0);
  CHECK(excess_of(box(10, 10, 41, 50), area, true) == Approx(1));
  CHECK(excess_of(box(44, 22, 46, 23), area, true) == Approx(3));
  CHECK(excess_of(box(30, 10, 70, 50), area, true) == Approx(5));
  CHECK(excess_of(box(30, 10, 70, 50), area, false) <= 0);
  CHECK(excess_of(box(90, 10, 103, 50), area, true) == Approx(3));
  Path ring = box(30, 10, 70, 50);
  ring.append(reversed(box(35, 15, 65, 45)));
  CHECK(excess_of(ring, area, true) <= 0);
  // A curve whose ends and control points lie outside, and whose middle dips 2 mm in.
  Path curve;
  curve.move_to({30, 34});
  curve.cubic_to({45, 26}, {55, 26}, {70, 34});
  CHECK(excess_of(curve, area, false) == Approx(2).margin(1e-3));
}

TEST_CASE("obstacles move with their blank: turned, mirrored, scaled") {
  for (const Transform& by :
       {Transform{0, 1, -1, 0, 140, 10}, Transform{-1, 0, 0, 1, 70, 10}, Transform{0.6, 0.8, -0.8, 0.6, 20, 0}}) {
    CHECK(excess_of(transformed(box(10, 10, 41, 50), by), moved(area, by), true) == Approx(1));
    CHECK(excess_of(transformed(box(10, 10, 39, 50), by), moved(area, by), true) <= 1e-9);
  }
}

TEST_CASE("ink in what is kept clear is told, though file and sheet agree") {
  Sheet sheet = sheet_by_hand();
  // The first item's slab covers (6, 6) to (54, 34) of its blank.
  sheet.items[0].artwork.clear_area.obstacles = {{{{50, 30}, {58, 30}, {58, 38}, {50, 38}}}};
  for (const MaybeFault& fault : {check_svg(svg_by_hand(), sheet), check_dxf(dxf_r12_of(polylines_by_hand()), sheet)}) {
    REQUIRE(fault);
    CHECK(fault->what.find("item 1042-1, engrave leaves its clear area by 4") == 0);
  }
  sheet.items[0].artwork.clear_area.obstacles = {{{{54, 30}, {58, 30}, {58, 38}, {54, 38}}}};
  CHECK_FALSE(check_svg(svg_by_hand(), sheet));
  sheet.items[0].artwork.clear_area.obstacles = {{{{13, 13}, {16, 13}, {16, 16}, {13, 16}}}};  // in the slab's window
  CHECK_FALSE(check_svg(svg_by_hand(), sheet));
  sheet.items[0].artwork.clear_area.obstacles = {{{{32, 13}, {36, 13}, {36, 16}, {32, 16}}}};  // under the slab
  CHECK(check_svg(svg_by_hand(), sheet));
}

}  // namespace ordinatio::intrusion_test
