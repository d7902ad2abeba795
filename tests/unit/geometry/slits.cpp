#include <catch2/catch.hpp>
#include <cmath>

#include "geometry/thickness.h"

namespace ordinatio::slits_test {

namespace {

constexpr double grid = 1e-9;
constexpr double twentieth = 1.05;  // how much too deep a slit may be told

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

/// A block with a slot from above: `width` wide, `depth` deep.
Polygons slotted(double width, double depth) {
  return difference({box(0, 0, 0.6, 0.5)}, {box(0.3 - width / 2, 0.5 - depth, 0.3 + width / 2, 1)}, grid);
}

/// Two bars side by side, `width` apart over a length; open at both ends.
Polygons side_by_side(double width, double length) {
  return {box(0, 0, 0.1, length), box(0.1 + width, 0, 0.2 + width, length)};
}

const Slit* narrowest_open(const Thickness& thickness) {
  for (const Slit& slit : thickness.slits) {
    if (!slit.closed) return &slit;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("a blind slit is as deep as it is, and one that is open at both ends half as deep as it is long") {
  for (const double depth : {0.1, 0.2, 0.35}) {
    INFO(depth);
    const Thickness blind = thickness_of(slotted(0.02, depth));
    const Slit* slit = narrowest_open(blind);
    REQUIRE(slit != nullptr);
    CHECK(slit->gauge.width == Approx(0.02).margin(1e-6));
    // Two walls and the end between them, halved; the mouth's corners belong to the walls.
    CHECK(depth_under(*slit, 0.03) >= depth);
    CHECK(depth_under(*slit, 0.03) <= twentieth * (depth + 0.01) + 0.04);

    const Thickness through = thickness_of(side_by_side(0.02, depth));
    slit = narrowest_open(through);
    REQUIRE(slit != nullptr);
    CHECK(depth_under(*slit, 0.03) == Approx(depth / 2).epsilon(0.05).margin(0.02));
  }
}

TEST_CASE("a slit has no depth for a spot that it lets through") {
  const Thickness thickness = thickness_of(slotted(0.02, 0.2));
  const Slit* slit = narrowest_open(thickness);
  REQUIRE(slit != nullptr);
  CHECK(depth_under(*slit, 0.0199) == 0);
  CHECK(depth_under(*slit, 0.021) > 0.1);
}

TEST_CASE("a slit that widens is filled as deep as a spot does not go in") {
  // Walls that part by a tenth of their length: 0.01 apart at the end, 0.05 at the mouth, 0.4 from it.
  const Polygons ink =
      difference({box(0, 0, 0.6, 0.5)}, {{{0.295, 0.1}, {0.305, 0.1}, {0.345, 0.9}, {0.255, 0.9}}}, grid);
  const Thickness thickness = thickness_of(ink);
  for (const Slit& slit : thickness.slits) {
    double before = 0;
    for (const double width : {0.012, 0.02, 0.03, 0.04}) {
      CHECK(depth_under(slit, width) >= before);  // a larger spot fills no less
      before = depth_under(slit, width);
    }
  }
}

TEST_CASE("gaps inside a closed counter are told from those that are open") {
  // A box with a bar in it that leaves a corridor of 0.03 on its right side, wide room on its left.
  Polygons ink = difference({box(0, 0, 0.8, 0.8)}, {box(0.1, 0.1, 0.7, 0.7)}, grid);
  ink.push_back(box(0.4, 0.2, 0.67, 0.6));
  const Thickness closed = thickness_of(ink);
  REQUIRE(closed.counters.size() == 1);
  CHECK(closed.counters[0].width == Approx(0.3).epsilon(0.35));
  REQUIRE_FALSE(closed.slits.empty());
  CHECK(closed.slits[0].closed);
  CHECK(closed.slits[0].gauge.width == Approx(0.03).margin(1e-6));
  CHECK(depth_under(closed.slits[0], 0.04) == Approx(0.2).epsilon(0.1).margin(0.02));
  // The same with a gate: nothing of it is closed.
  const Thickness open = thickness_of(difference(ink, {box(0.1, 0.6, 0.3, 1)}, grid));
  CHECK(open.counters.empty());
  REQUIRE_FALSE(open.slits.empty());
  for (const Slit& slit : open.slits) CHECK_FALSE(slit.closed);
}

TEST_CASE("a seam between strokes is a slit, and no counter however closed") {
  const auto with_hole = [](double width) {
    return thickness_of(difference({box(0, 0, 0.4, 0.4)}, {box(0.2 - width / 2, 0.1, 0.2 + width / 2, 0.3)}, grid));
  };
  const Thickness seam = with_hole(0.004);
  CHECK(seam.counters.empty());
  REQUIRE_FALSE(seam.slits.empty());
  CHECK_FALSE(seam.slits[0].closed);
  CHECK(seam.slits[0].gauge.width == Approx(0.004).margin(1e-6));
  CHECK(depth_under(seam.slits[0], 0.01) == Approx(0.204).epsilon(0.01));
  const Thickness counter = with_hole(0.02);
  REQUIRE(counter.counters.size() == 1);
  CHECK(counter.counters[0].width == Approx(0.02).margin(1e-6));
}

}  // namespace ordinatio::slits_test
