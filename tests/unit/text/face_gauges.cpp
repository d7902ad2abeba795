// The catalogue's numbers are those of the outlines.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "text/text.h"

namespace ordinatio::face_gauges_test {

TEST_CASE("the catalogue's strokes and counters are those that are measured on the outlines") {
  // The catalogue rounds down to thousandths of an em; polygons lie off the outline by twice their chord error.
  constexpr double rounding = 1e-3, slack = 3e-4;  // em
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const CatalogueFace& face : library.catalogue()) {
    if (!face.is_for_engraving()) continue;
    const auto measured = gauge_face(typesetter, face.name);
    REQUIRE(measured.ok());
    INFO(face.name << ": stroke " << measured->thinnest << ", gap " << measured->counter);
    CHECK(measured->thinnest >= face.thinnest - slack);
    CHECK(measured->thinnest <= face.thinnest + rounding + slack);
    CHECK(measured->counter >= face.counter - slack);
    CHECK(measured->counter <= face.counter + rounding + slack);
  }
}

}  // namespace ordinatio::face_gauges_test
