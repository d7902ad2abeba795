// How far words keep from a logo, by GEOS 3.11 (Debian: libgeos-dev; GEOSDistance of its C interface), on artwork as it is
// composed.
#include <geos_c.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <memory>

#include "design/design.h"

using namespace ordinatio;

namespace {

constexpr double chord = 0.001;  // mm; curves become chords, so ink may seem further off by that

class Session {
 public:
  Session() : context_(GEOS_init_r()) {}
  ~Session() { GEOS_finish_r(context_); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  operator GEOSContextHandle_t() const { return context_; }

 private:
  GEOSContextHandle_t context_;
};
const Session session;

struct DestroyLines {
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(session, geometry); }
};
using Lines = std::unique_ptr<GEOSGeometry, DestroyLines>;

Lines lines_from(const Path& path) {
  std::vector<GEOSGeometry*> lines;
  for (const Polyline& line : flatten(path, chord)) {
    const auto count = static_cast<unsigned>(line.points.size());
    GEOSCoordSequence* corners = GEOSCoordSeq_create_r(session, count + 1, 2);
    for (unsigned i = 0; i <= count; ++i) {
      const Point p = line.points[i % count];
      GEOSCoordSeq_setXY_r(session, corners, i, p.x, p.y);
    }
    lines.push_back(GEOSGeom_createLineString_r(session, corners));
  }
  return Lines(
      GEOSGeom_createCollection_r(session, GEOS_MULTILINESTRING, lines.data(), static_cast<unsigned>(lines.size())));
}

double distance_of(const Path& a, const Path& b) {
  double distance = -1;
  GEOSDistance_r(session, lines_from(a).get(), lines_from(b).get(), &distance);
  return distance;
}

Path ring(double size) {
  const Point middle{size / 2, size / 2};
  Path path = path_of(rounded_outline({{0, 0}, {size, 0}, {size, size}, {0, size}}, size / 2 * (1 - 1e-9)));
  path.append(path_of(Polygons{{middle + Point{-2, -1}, middle + Point{0, 3}, middle + Point{2, -1}}}));
  return path;
}

/// Words by an operation of their own, so that they can be told from the logo.
Design with_logo(const Bounds& logo, const Bounds& words) {
  Design design;
  design.name = "test";
  design.width = 200, design.height = 150;
  design.blank.outline = rectangle_outline(200, 150, Corner::cut, 8);
  design.margin = 6;
  LogoPart part;
  part.box = logo;
  part.logo = {ring(20), {0, 0, 20, 20}};
  design.logos = {part};
  TextPart text;
  text.look.faces = {"serif"};
  text.operation = Operation::score;
  text.box = words;
  text.min_cap_height = 1, text.max_cap_height = 60;
  text.breaks = LineBreaks::free;
  design.texts = {text};
  return design;
}

Path layer_of(const Artwork& artwork, Operation operation) {
  const auto layer = std::ranges::find(artwork.layers, operation, &Layer::operation);
  REQUIRE(layer != artwork.layers.end());
  return layer->path;
}

double distance_between_parts(const Artwork& artwork) {
  return distance_of(layer_of(artwork, Operation::score), layer_of(artwork, Operation::engrave));
}

LaidDesign without_logos_edges(LaidDesign prepared) {
  prepared.rooms.front().area.neighbours.clear();
  return prepared;
}

}  // namespace

TEST_CASE("words keep their own x-height from a logo, wherever it stands and however large they are") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  const std::pair<Bounds, Bounds> layouts[] = {{{90, 8, 110, 28}, {8, 30, 192, 140}},     // below the words
                                               {{85, 110, 115, 140}, {8, 10, 192, 108}},  // above
                                               {{10, 60, 40, 90}, {42, 10, 190, 140}},    // to the left
                                               {{160, 60, 190, 90}, {10, 10, 158, 140}},  // to the right
                                               {{10, 10, 40, 40}, {20, 44, 190, 140}}};   // below, at one end
  const std::vector<std::string> texts[] = {{"R"},
                                            {"gjpqy"},
                                            {"Rose Cottage"},
                                            {"Oak", "Ash", "Elm", "Yew", "Holly"},
                                            {"Καλώς ορίσατε", "στο σπίτι της Ευανθίας"},
                                            {"أهلاً وسهلاً", "بيت السلام"},
                                            {"水車小屋", "ようこそ"}};
  std::size_t too_near_else = 0;
  for (const bool with_nail : {false, true}) {
    for (const auto& [logo, words] : layouts) {
      Design drawn = with_logo(logo, words);
      if (with_nail) drawn.kept_clear = {{"nail", {{100, 75}}, 2.5, 2}};
      const auto laid = laid_as_drawn(drawn);
      REQUIRE(laid.ok());
      const LaidDesign& design = *laid;
      for (const auto& lines : texts) {
        const auto artwork = compose(design, {{"", lines, {}}, ""}, typesetter);
        if (!artwork.ok()) FAIL(describe(artwork.fault()));
        INFO(lines.front() << " beside a logo at " << logo.left << "," << logo.bottom << (with_nail ? ", a nail" : ""));
        CHECK(distance_between_parts(*artwork) >= artwork->x_height - 2 * chord);
        const auto heedless = compose(without_logos_edges(design), {{"", lines, {}}, ""}, typesetter);
        REQUIRE(heedless.ok());
        too_near_else += distance_between_parts(*heedless) < heedless->x_height ? 1 : 0;
      }
    }
  }
  CHECK(too_near_else > 20);  // of 70: without the rule they would be
}
