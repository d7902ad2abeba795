#include <catch2/catch.hpp>

#include "../strokes/followed.h"
#include "design/design_file.h"
#include "design/variant.h"
#include "plaque.h"

namespace ordinatio::lines_test {
namespace {

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  Artwork compose(const Design& design, std::vector<std::string> lines) {
    const auto laid = laid_as_drawn(design);
    if (!laid.ok()) FAIL(describe(laid.fault()));
    auto artwork = ordinatio::compose(*laid, Words{{"", std::move(lines), {}}, ""}, typesetter);
    if (!artwork.ok()) FAIL(describe(artwork.fault()));
    return std::move(*artwork);
  }
};

Design in_strokes(double spot) {
  Design design = plaque(3, 200);
  design.texts[0].look.faces = {"stroke"};
  design.texts[0].operation = Operation::score;
  design.texts[0].beam_spot = spot;
  return design;
}

std::string fault_of(const std::string& text) {
  const auto design = parse_design("[blank]\nwidth = 100\nheight = 60\n" + text, "a.toml", "a");
  return design.ok() ? "" : describe(design.fault());
}

}  // namespace

TEST_CASE("a hatched design's letters are lines inside them, that cover them") {
  Bench bench;
  Design design = plaque(3, 12);
  const Artwork filled = bench.compose(design, {"Rosa & Grün"});
  for (const double pitch : {0.1, 0.2}) {
    for (const double angle : {30.0, 45.0}) {
      design.hatch = HatchPart{{angle, pitch, 1, 0.1, false}, Operation::score};
      const Artwork lines = bench.compose(design, {"Rosa & Grün"});
      REQUIRE(lines.layers.size() == 1);
      CHECK(lines.layers[0].operation == Operation::score);
      CHECK(lines.hash != filled.hash);
      const Polygons area = spot_area(filled.layers[0].path, 0.1);
      CHECK(rows_length(lines.layers[0].path, angle, pitch) * pitch == Approx(area_of(area)).epsilon(0.01));
    }
  }
}

TEST_CASE("lettering in strokes fills its room to the line's edge, and no further") {
  Bench bench;
  const Bounds thin = bounds_of(bench.compose(in_strokes(0), {"The Old Mill House"}).layers.at(0).path);
  CHECK(thin.left == Approx(5).margin(1e-4));
  CHECK(thin.right == Approx(145).margin(1e-4));
  const Artwork artwork = bench.compose(in_strokes(1), {"The Old Mill House"});
  REQUIRE(artwork.layers.size() == 1);
  CHECK(artwork.layers[0].operation == Operation::score);
  const Bounds wide = bounds_of(artwork.layers[0].path);
  CHECK(wide.left == Approx(5.5).margin(1e-4));
  CHECK(wide.right == Approx(144.5).margin(1e-4));
  CHECK(artwork.stroke.width == 1);
  CHECK(artwork.faces.at(0).name == "stroke");
}

TEST_CASE("a letter that the stroke alphabet lacks holds the item by its name, and no outline stands in") {
  Bench bench;
  const auto laid = laid_as_drawn(in_strokes(0.1));
  const auto artwork = ordinatio::compose(*laid, Words{{"", {"Mill", "Анна"}, {}}, ""}, bench.typesetter);
  REQUIRE_FALSE(artwork.ok());
  const std::string told = describe(artwork.fault());
  CHECK(told.find("CYRILLIC CAPITAL LETTER A") != std::string::npos);
  CHECK(told.find("line 2, character 1") != std::string::npos);
}

TEST_CASE("letters with their marks typed apart are those of one character") {
  Bench bench;
  const auto whole = bench.compose(in_strokes(0), {"Škůň"}), apart = bench.compose(in_strokes(0), {"Škůň"});
  CHECK(whole.hash == apart.hash);
}

TEST_CASE("a text is in lines or in outlines, and lines are not engraved") {
  CHECK(fault_of("[[text]]\nfont = \"stroke\"\n") == "");
  CHECK(fault_of("[[text]]\nfont = \"stroke\"\noperation = \"engrave\"\n").find("nothing to fill") !=
        std::string::npos);
  CHECK(fault_of("[[text]]\nfont = \"stroke\"\nfallbacks = [\"sans\"]\n").find("mixed") != std::string::npos);
  CHECK(fault_of("[[text]]\nfont = \"serif\"\nsturdier = \"stroke\"\n").find("mixed") != std::string::npos);
  CHECK(fault_of("[[text]]\n[hatch]\nangle = 30\n").find("pitch") != std::string::npos);
  CHECK(fault_of("[[text]]\n[hatch]\npitch = 0.3\noperation = \"cut\"\n").find("operation") != std::string::npos);
}

TEST_CASE("a face that a customer chose brings its operation with it") {
  auto laid = laid_as_drawn(plaque(3, 30));
  const auto chosen = varied(*std::move(laid), {"test", "stroke-slanted", {}});
  REQUIRE(chosen.ok());
  CHECK(chosen->texts[0].operation == Operation::score);
}

}  // namespace ordinatio::lines_test
