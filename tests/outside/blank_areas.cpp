// Outlines, their parallel curves and clear areas of measured pieces against GEOS 3.11 (Debian: libgeos-dev; its C interface): offsets by
// GEOSBufferWithStyle, areas by its Boolean operations. Measures are whole tenths of a millimetre, as a rule shows them.
#include <geos_c.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <memory>
#include <numbers>
#include <random>

#include "design/design.h"

using namespace ordinatio;

namespace {

constexpr double exact = 1e-6;  // of the area

class Geos {
 public:
  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  operator GEOSContextHandle_t() const { return context_; }

 private:
  GEOSContextHandle_t context_;
};
const Geos geos;

struct Destroy {
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(geos, geometry); }
};
using Area = std::unique_ptr<GEOSGeometry, Destroy>;

Area area_from(const Polygon& polygon) {
  GEOSCoordSequence* corners = GEOSCoordSeq_create_r(geos, static_cast<unsigned>(polygon.size() + 1), 2);
  for (std::size_t i = 0; i <= polygon.size(); ++i) {
    const Point p = polygon[i % polygon.size()];
    GEOSCoordSeq_setXY_r(geos, corners, static_cast<unsigned>(i), p.x, p.y);
  }
  return Area(GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, corners), nullptr, 0));
}

Area less(const Area& a, const Area& b) { return Area(GEOSDifference_r(geos, a.get(), b.get())); }
Area both(const Area& a, const Area& b) { return Area(GEOSUnion_r(geos, a.get(), b.get())); }
Area grown(const Area& area, double distance, int join) {
  constexpr int chords_a_quarter = 1000;
  constexpr double mitre_limit = 1e6;
  return Area(
      GEOSBufferWithStyle_r(geos, area.get(), distance, chords_a_quarter, GEOSBUF_CAP_ROUND, join, mitre_limit));
}
double size_of(const Area& area) {
  double size = 0;
  GEOSArea_r(geos, area.get(), &size);
  return size;
}

Area without(Area area, const std::vector<ConvexHull>& hulls) {
  for (const ConvexHull& hull : hulls) area = less(area, area_from(hull.vertices));
  return area;
}

class Rule {
 public:
  explicit Rule(unsigned seed) : random_(seed) {}
  double between(double least, double most) { return std::round((least + (most - least) * share()) * 10) / 10; }
  std::size_t below(std::size_t count) { return random_() % count; }

 private:
  double share() { return static_cast<double>(random_()) / 4294967296.0; }
  std::mt19937 random_;
};

Polygon box(double left, double bottom, double width, double height) {
  return {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}, {left, bottom + height}};
}

CornerShape corner(Rule& rule, bool may_round) {
  switch (rule.below(may_round ? 3 : 2)) {
    case 0:
      return {};
    case 1:
      return {Corner::cut, rule.between(2, 20), rule.between(2, 20)};
    default:
      return {Corner::rounded, rule.between(1, 25)};
  }
}

Blank piece(Rule& rule, bool may_round) {
  Blank blank;
  const double width = rule.between(90, 160), height = rule.between(70, 110);
  blank.outline = rectangle_outline(
      width, height,
      {corner(rule, may_round), corner(rule, may_round), corner(rule, may_round), corner(rule, may_round)});
  for (std::size_t i = rule.below(3); i > 0; --i) {
    const double depth = rule.between(1, 9), length = rule.between(2, 30);
    blank.chips.push_back(rule.below(2) == 0 ? box(rule.between(0, width - 30), height - depth, length, depth)
                                             : box(0, rule.between(0, height - 30), depth, length));
  }
  for (std::size_t i = rule.below(3); i > 0; --i) {
    blank.kept_clear.push_back(
        {"thing", box(rule.between(10, 60), rule.between(10, 50), rule.between(3, 30), rule.between(3, 15)), 0,
         rule.between(0, 4)});
  }
  return blank;
}

Area area_from(const Blank& blank) {
  Area area = area_from(polygon_of(region_of(blank.outline)));
  for (const Polygon& chip : blank.chips) area = less(area, area_from(chip));
  return area;
}

}  // namespace

TEST_CASE("a piece less its chips has the area that GEOS gives it") {
  Rule rule(1874);
  for (int i = 0; i < 300; ++i) {
    const Blank blank = piece(rule, false);
    CHECK(area_of(blank) == Approx(size_of(area_from(blank))).epsilon(exact));
  }
}

TEST_CASE("an outline moved inwards is what GEOS leaves of it") {
  Rule rule(1901);
  for (int i = 0; i < 300; ++i) {
    const Outline outline = piece(rule, i % 2 == 0).outline;
    const double distance = rule.between(0.5, 20);
    const auto inner = inset(outline, distance);
    REQUIRE(inner);
    const Polygon inside = polygon_of(region_of(*inner));
    const Area area = area_from(inside),
               wanted = grown(area_from(polygon_of(region_of(outline))), -distance, GEOSBUF_JOIN_MITRE);
    // Arcs are chords on both sides: not the same ones, and none further off than arc_sagitta.
    double round = 0;
    for (const double radius : outline.radii) round += radius * std::numbers::pi / 2;
    const double slack = exact * size_of(wanted) + 2 * arc_sagitta * round;
    CHECK(size_of(less(area, wanted)) <= slack);
    CHECK(size_of(less(wanted, area)) <= slack);
    if (outline.radii.empty()) CHECK(size_of(area) == Approx(size_of(wanted)).epsilon(exact));
  }
}

TEST_CASE("a clear area lies in what GEOS leaves by true offsets, and gives away no more than its arcs' chords") {
  Rule rule(1932);
  for (int i = 0; i < 300; ++i) {
    Design design;
    design.name = "test";
    design.blank = piece(rule, i % 2 == 0);
    design.margin = rule.between(0, 7);
    const Bounds whole = bounds_of(path_of(design.blank.outline));
    design.width = whole.right, design.height = whole.top;
    const auto laid = laid_as_drawn(design);
    if (!laid.ok()) continue;  // no room for the margin
    const Area area = without(area_from(polygon_of(laid->clear_area.region)), laid->clear_area.obstacles);
    Area wanted = grown(area_from(design.blank), -design.margin, GEOSBUF_JOIN_ROUND);
    double arcs = 0;
    for (const double radius : design.blank.outline.radii) arcs += radius * std::numbers::pi / 2;
    for (std::size_t k = 0; k < design.blank.chips.size(); ++k) arcs += 2 * std::numbers::pi * design.margin;
    for (const KeptClear& thing : design.blank.kept_clear) {
      wanted = less(wanted, grown(area_from(thing.corners), thing.margin, GEOSBUF_JOIN_ROUND));
      arcs += 2 * std::numbers::pi * thing.margin;
    }
    CHECK(size_of(less(area, wanted)) <= exact * size_of(wanted) + 2 * arc_sagitta * arcs);
    CHECK(size_of(less(wanted, area)) <= exact * size_of(wanted) + kept_clear_sagitta * arcs);
    if (arcs == 0) CHECK(size_of(area) == Approx(size_of(wanted)).epsilon(exact));
  }
}

TEST_CASE("areas are joined, cut and crossed as GEOS does it") {
  Rule rule(2026);
  constexpr double grid = 1e-4;
  for (int i = 0; i < 300; ++i) {
    const Polygon a = polygon_of(region_of(piece(rule, false).outline));
    Polygon b = polygon_of(region_of(piece(rule, false).outline));
    const Point shift{rule.between(-80, 80), rule.between(-60, 60)};
    for (Point& p : b) p = p + shift;
    const Area in_a = area_from(a), in_b = area_from(b);
    // Where edges cross, corners come to lie on the grid: a hair of the perimeter's length.
    const double slack = grid * 500;
    CHECK(area_of(difference({a}, {b}, grid)) == Approx(size_of(less(in_a, in_b))).margin(slack));
    CHECK(area_of(intersection({a}, {b}, grid)) ==
          Approx(size_of(in_a) + size_of(in_b) - size_of(both(in_a, in_b))).margin(slack));
    CHECK(area_of(weld({a, b}, grid)) == Approx(size_of(both(in_a, in_b))).margin(slack));
  }
}
