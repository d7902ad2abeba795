// Welded areas against Boost.Polygon 1.74 (Debian: libboost-dev), which shares no code with the library that welds.
#include <boost/polygon/polygon.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "geometry/geometry.h"
#include "text/text.h"

using namespace ordinatio;
namespace bp = boost::polygon;

namespace {

constexpr double grid = 1e-4;  // mm

/// The non-zero union's area: each contour is added by its own direction, as Boost.Polygon counts windings.
double union_area_by_boost(const Polygons& polygons) {
  using Coordinate = int;
  using Shape = bp::polygon_data<Coordinate>;
  bp::polygon_set_data<Coordinate> outer, holes;
  for (const Polygon& polygon : polygons) {
    std::vector<bp::point_data<Coordinate>> points;
    for (const Point p : polygon) points.emplace_back(int(std::lround(p.x / grid)), int(std::lround(p.y / grid)));
    Shape shape;
    bp::set_points(shape, points.begin(), points.end());
    (area_of(polygon) > 0 ? outer : holes).insert(shape);
  }
  using namespace bp::operators;
  std::vector<Shape> pieces;
  bp::polygon_set_data<Coordinate> filled = outer - holes;
  filled.get(pieces);
  double area = 0;
  for (const Shape& piece : pieces) area += double(bp::area(piece));
  return area * grid * grid;
}

}  // namespace

TEST_CASE("the union of random polygons has the area that Boost.Polygon finds") {
  std::mt19937 random(42);
  std::uniform_real_distribution<double> place(0, 100), spread(-20, 20);
  for (int round = 0; round < 200; ++round) {
    Polygons polygons;
    for (int i = 0; i < 8; ++i) {
      const Point centre{place(random), place(random)};
      std::vector<Point> points(9);
      for (Point& p : points) p = centre + Point{spread(random), spread(random)};
      polygons.push_back(hull_of(std::move(points)).vertices);
    }
    const double expected = union_area_by_boost(polygons);
    REQUIRE(area_of(weld(polygons, grid)) == Approx(expected).epsilon(1e-4));
  }
}

TEST_CASE("joined letters have the area that Boost.Polygon finds") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  // Overlapping outer contours only: Boost.Polygon subtracts holes from all that is filled, so letters whose holes are
  // covered by a neighbour would be counted otherwise. These have no hole, or keep it clear.
  for (const char* words : {"Minim", "silver mill", "Wm. Millwright", "vivid summer"}) {
    const auto line = typesetter.shape(words, {{"script"}, "en", ""});
    REQUIRE(line.ok());
    Polygons parts;
    for (const PlacedGlyph& glyph : line->glyphs) {
      const Transform at{20, 0, 0, 20, 20 * glyph.origin.x, 20 * glyph.origin.y};
      for (Polygon& p : polygons_of(transformed(typesetter.outline(glyph.face, glyph.glyph).path, at), 0.002))
        parts.push_back(p);
    }
    Path ink;
    typesetter.append_ink(ink, *line, 20, {0, 0}, 0.002);
    CHECK(area_of(ink) == Approx(union_area_by_boost(parts)).epsilon(1e-3));
    CHECK(area_of(weld(parts, grid)) == Approx(union_area_by_boost(parts)).epsilon(1e-4));
  }
}
