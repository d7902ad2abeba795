#include <catch2/catch.hpp>
#include <cmath>

#include "check/check.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::sheet_test {

namespace {

std::string told(const Sheet& sheet) {
  const MaybeFault svg = check_svg(svg_by_hand(), sheet), dxf = check_dxf(dxf_r12_of(polylines_by_hand()), sheet);
  if (!svg || !dxf) return "";
  CHECK(svg->what == dxf->what);
  return svg->what;
}

void reach_in(Sheet& sheet, double inset) {
  for (SheetItem& item : sheet.items) {
    item.artwork.clear_area.region = {
        {{{-1, 0}, -inset}, {{0, -1}, -inset}, {{1, 0}, 60 - inset}, {{0, 1}, 40 - inset}}};
  }
}

}  // namespace

TEST_CASE("ink that leaves its clear area by 0.05 mm is told, though file and sheet agree") {
  Sheet sheet = sheet_by_hand();
  reach_in(sheet, 6.05);
  CHECK(told(sheet).find("item 1042-1, engrave leaves its clear area by 0.05") == 0);
  reach_in(sheet, 6.011);
  CHECK(told(sheet).empty());
}

TEST_CASE("a curve is held against the clear area itself, not against its control points") {
  Sheet sheet = sheet_by_hand();
  // In x − y the curve's furthest point is its middle, (50, 10); its control points (48, 6) and (54, 12) reach further.
  const double root = std::sqrt(0.5);
  sheet.items[0].artwork.clear_area.region.edges.push_back({{root, -root}, 40.1 * root});
  CHECK_FALSE(check_svg(svg_by_hand(), sheet));
  sheet.items[0].artwork.clear_area.region.edges.back().offset = 39.9 * root;
  CHECK(check_svg(svg_by_hand(), sheet));
}

TEST_CASE("what leaves the bed is told, though file and sheet agree") {
  Sheet sheet = sheet_by_hand();
  sheet.parts.back().path = {};
  sheet.parts.back().path.add_rectangle({-5, 10, 70, 50});
  const std::string text = damaged(svg_by_hand(), "M10 110L70 110L70 70L10 70Z", "M-5 110L70 110L70 70L-5 70Z");
  const MaybeFault fault = check_svg(text, sheet);
  REQUIRE(fault);
  CHECK(fault->what == "blank-1, guide leaves the bed");
}

TEST_CASE("a sheet that is not what its artworks say is refused whatever the file") {
  SECTION("a part drawn elsewhere") {
    Sheet sheet = sheet_by_hand();
    sheet.items[1].to_bed.dx += 0.01;
    CHECK(told(sheet).find("1042-2, engrave") != std::string::npos);
  }
  SECTION("an item mirrored") {
    Sheet sheet = sheet_by_hand();
    sheet.items[0].to_bed = {-1, 0, 0, 1, 70, 10};
    CHECK(told(sheet).find("mirrored") != std::string::npos);
  }
  SECTION("a layer left out") {
    Sheet sheet = sheet_by_hand();
    sheet.parts.erase(sheet.parts.begin() + 2);
    CHECK(told(sheet).find("layer") != std::string::npos);
  }
  SECTION("an item outside its pocket") {
    Sheet sheet = sheet_by_hand();
    sheet.items[0].pocket = 2;
    CHECK(told(sheet).find("outside pocket 2") != std::string::npos);
  }
  SECTION("an item that may be inked anywhere") {
    Sheet sheet = sheet_by_hand();
    sheet.items[0].artwork.clear_area = {};
    CHECK(told(sheet).find("no clear area") != std::string::npos);
  }
  SECTION("one id twice") {
    Sheet sheet = sheet_by_hand();
    sheet.items.push_back(sheet.items[0]);
    CHECK(told(sheet).find("twice") != std::string::npos);
  }
  SECTION("outlines that turn the wrong way") {
    Sheet sheet = sheet_by_hand();
    sheet.items[1].artwork.layers[0].path = reversed(sheet.items[1].artwork.layers[0].path);
    sheet.parts[1].path = reversed(sheet.parts[1].path);
    CHECK(check_svg(svg_by_hand(), sheet)->what.find("wrong way") != std::string::npos);
  }
}

}  // namespace ordinatio::sheet_test
