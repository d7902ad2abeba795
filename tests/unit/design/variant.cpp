#include "design/variant.h"

#include <catch2/catch.hpp>

#include "design/design_file.h"

namespace ordinatio::variant_test {
using Catch::Contains;

namespace {

LaidDesign design_of(const std::string& text) {
  auto design = parse_design(text, "slate.toml", "slate");
  if (!design.ok()) FAIL(describe(design.fault()));
  design->checksum = "base";
  auto laid = laid_as_drawn(*design);
  REQUIRE(laid.ok());
  return *std::move(laid);
}

const std::string slate = R"([blank]
width = 100
height = 50
corners = "rounded"
corner = 4
[[text]]
font = "serif"
features = ["smcp"]
box = [10, 10, 80, 30]
[[text.role]]
name = "date"
at = [-1]
[[text.role]]
name = "first"
at = [1]
font = "slab"
[[text]]
lines = ["Made here"]
box = [10, 5, 80, 4]
)";

}  // namespace

TEST_CASE("a variant's name says what it is, and a name without choices is the design's own") {
  for (const char* name : {"slate", "slate, face script", "slate, size 150x100", "slate, face own.ttf, size 150.5x100",
                           "a, b", "slate, size large", "slate, size 0x5", ""}) {
    INFO(name);
    CHECK(name_of(variant_named(name)) == name);
  }
  const DesignVariant both = variant_named("slate, face script, size 150.5x100");
  CHECK(both.base == "slate");
  CHECK(both.face == "script");
  REQUIRE(both.size);
  CHECK(both.size->x == 150.5);
  CHECK(both.size->y == 100);
  CHECK(variant_named("slate, size large").is_plain());
}

TEST_CASE("a face chosen is that of the customer's words, and of the roles that had the same one") {
  const LaidDesign design = design_of(slate);
  const Result<LaidDesign> script = varied(design, variant_named("slate, face script"));
  REQUIRE(script.ok());
  CHECK(script->name == "slate, face script");
  CHECK(script->checksum != design.checksum);
  CHECK(script->texts[0].look.faces.front() == "script");
  CHECK(script->texts[0].look.features.empty());
  CHECK(script->texts[0].roles[0].look.faces.front() == "script");
  CHECK(script->texts[0].roles[1].look.faces.front() == "slab");
  CHECK(script->texts[1].look.faces.front() == "serif");  // the maker's words
}

TEST_CASE("a size chosen is the blank's, boxes keep their share of it, and corners their radius") {
  const LaidDesign design = design_of(slate);
  const Result<LaidDesign> large = varied(design, variant_named("slate, size 200x75"));
  REQUIRE(large.ok());
  CHECK(large->width == 200);
  CHECK(large->height == 75);
  CHECK(large->blank.id.empty());
  CHECK(large->blank.outline.radii == design.blank.outline.radii);
  REQUIRE(large->texts[0].box);
  CHECK(large->texts[0].box->left == 20);
  CHECK(large->texts[0].box->top == 60);
  CHECK(large->checksum != varied(design, variant_named("slate, size 200x76"))->checksum);
  const Result<LaidDesign> small = varied(design, variant_named("slate, size 7x7"));
  REQUIRE_FALSE(small.ok());
  CHECK_THAT(describe(small.fault()), Contains("the corners do not fit a blank of 7x7 mm"));
}

TEST_CASE("a design that nothing was chosen of stays what it is") {
  const LaidDesign design = design_of(slate);
  const Result<LaidDesign> same = varied(design, variant_named("slate"));
  REQUIRE(same.ok());
  CHECK(same->checksum == design.checksum);
  CHECK(same->name == "slate");
}

}  // namespace ordinatio::variant_test
