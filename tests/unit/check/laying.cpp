#include <catch2/catch.hpp>

#include "bed/correction.h"
#include "check/check.h"
#include "one_file.h"
#include "sheet_by_hand.h"

namespace ordinatio::laying_test {
using Model = Registration::Model;

namespace {

/// The sheet by hand with four marks, which is room for a correction, and laid by it.
Sheet laid_sheet(const Transform& by, Model model = Model::affine) {
  Sheet sheet = sheet_by_hand();
  sheet.frame.marks = {{150, 100}, {190, 10}, {80, 110}, {188, 108}};
  std::vector<Point> measured;
  for (const Point p : sheet.frame.marks) measured.push_back(by(p));
  const auto fault = correct(sheet, {1, 2, 3, 4}, measured, model);
  REQUIRE_FALSE(fault);
  return sheet;
}

/// What is wrong with the sheet itself, whatever the file; empty: nothing, and only the file is none.
std::string told(const Sheet& sheet) {
  const MaybeFault fault = check_svg("", sheet);
  REQUIRE(fault);
  return fault->what == "the file does not begin with <svg>" ? "" : fault->what;
}

const Transform crooked{1.004, 0.012, -0.011, 0.997, 0.8, -1.2};

SheetPart& part_called(Sheet& sheet, const std::string& id) {
  for (SheetPart& part : sheet.parts) {
    if (part.id == id) return part;
  }
  throw std::logic_error(id + " is not there");
}

}  // namespace

TEST_CASE("a sheet that was turned, scaled and sheared to its marks is sound") {
  CHECK(told(sheet_by_hand()).empty());
  CHECK(told(laid_sheet(crooked)).empty());
  CHECK(told(laid_sheet(shift_by({3, -2}), Model::rigid)).empty());
}

TEST_CASE("an item that lies elsewhere than the marks say is told") {
  Sheet sheet = laid_sheet(crooked);
  SECTION("left where it was drawn") {
    sheet.items[0].to_bed = {1, 0, 0, 1, 10, 10};
    CHECK(told(sheet) == "item 1042-1 is mirrored or scaled on its way to the bed");
  }
  SECTION("moved out of its pocket, with its ink") {
    sheet.items[0].to_bed = then(shift_by({0.1, 0}), sheet.items[0].to_bed);
    CHECK(told(sheet).find("is outside pocket 1") != std::string::npos);
  }
  SECTION("moved without its ink") {
    sheet.items[1].to_bed.dx += 1e-4;
    CHECK(told(sheet).find("1042-2") != std::string::npos);
  }
}

TEST_CASE("a mark that was not moved with the sheet, and a bar that was scaled with it, are told") {
  Sheet sheet = laid_sheet(crooked);
  SECTION("a mark") {
    Path mark = mark_path(sheet.frame.plan.marks.kind, sheet.frame.plan.marks.size, sheet.frame.marks[1]);
    part_called(sheet, "mark-2").path = mark;
    CHECK(told(sheet).find("mark-2 does not stand at") == 0);
  }
  SECTION("a mark that the frame has not") {
    part_called(sheet, "mark-4").id = "mark-5";
    CHECK(told(sheet) == "mark-5 is no mark of the sheet's");
  }
  SECTION("the scale bar") {
    SheetPart& bar = part_called(sheet, "scale-bar");
    bar.path = transformed(bar.path, scale_by(1.004));
    CHECK(told(sheet) == "the scale bar is not 100 mm long");
  }
}

TEST_CASE("a correction that is not what it says is told") {
  Sheet sheet = laid_sheet(crooked);
  Registration& registration = sheet.correction->registration;
  SECTION("residuals that were made up") {
    registration.residuals[2] = {0.1, 0};
    CHECK(told(sheet) == "the correction's residuals are not what its transform leaves");
  }
  SECTION("residuals left out") {
    registration.residuals.pop_back();
    CHECK(told(sheet) == "the correction's residuals are not what its transform leaves");
  }
  SECTION("marks of another sheet") {
    sheet.correction->numbers = {1, 2, 4, 3};
    CHECK(told(sheet) == "the correction is not by the sheet's own marks");
  }
  SECTION("a mirror") {
    registration.to_bed = {-1, 0, 0, 1, 0, 0};
    CHECK(told(sheet) == "the correction mirrors the sheet, or has no inverse");
  }
}

TEST_CASE("ink is held against its clear area where that was moved to") {
  Sheet sheet = laid_sheet(crooked);
  sheet.items[0].artwork.clear_area.region.edges.push_back({{1, 0}, 30});  // ink reaches to 54
  const Layer& layer = sheet.items[0].artwork.layers[0];
  const Path drawn = transformed(layer.path, sheet.items[0].to_bed);
  CHECK(part_called(sheet, "1042-1").path == drawn);
  // A file of that sheet's own parts: the first part as SVG, by hand.
  std::string text =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"200mm\" height=\"120mm\" "
      "viewBox=\"0 0 200 120\">\n<g id=\"engrave\" fill=\"#009E73\" stroke=\"none\"><title>engrave</title>\n"
      "<g id=\"engrave-1042-1\"><title>item 1042-1, pocket 1</title><path d=\"";
  const char* letters = "MLQCZ";
  std::size_t next = 0;
  for (const Path::Verb verb : drawn.verbs()) {
    text += letters[static_cast<int>(verb)];
    const std::size_t counts[] = {1, 1, 2, 3, 0};
    for (std::size_t i = 0; i < counts[static_cast<int>(verb)]; ++i, ++next) {
      if (i > 0) text += ' ';
      append_number(text, drawn.points()[next].x, 3), text += ' ';
      append_number(text, 120 - drawn.points()[next].y, 3);
    }
  }
  text += "\"/></g></g></svg>";
  const MaybeFault fault = check_svg(text, sheet);
  REQUIRE(fault);
  // 24 mm across the moved edge: times the area's growth, by the growth along the edge, 24 · 1.00112 / 0.997061.
  CHECK(fault->what == "item 1042-1, engrave leaves its clear area by 24.0977 mm");
}

TEST_CASE("an item laid by hand lies where its corners are, and in no pocket") {
  const Sheet by_hand = sheet_by_hand();
  const auto laid = lay_by_hand(by_hand.frame.plan, by_hand.items[0], {{60, 20}, {120, 20}, {120, 60}, {60, 60}}, "r");
  REQUIRE(laid.ok());
  CHECK(told(*laid).empty());
  Sheet sheet = *laid;
  sheet.items[0].pocket = 1;
  CHECK(told(sheet) == "item 1042-1 does not lie where its corners were measured");
  sheet = *laid;
  sheet.items[0].to_bed.dx += 1;
  CHECK(told(sheet) == "item 1042-1 does not lie where its corners were measured");
  sheet = *laid;
  sheet.correction.reset();
  CHECK(told(sheet).find("pocket that the jig does not have") != std::string::npos);
}

}  // namespace ordinatio::laying_test
