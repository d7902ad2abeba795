// Files whose ink lies over itself, written by the writers and read back: they hold what the sheet holds, and are refused.
#include <catch2/catch.hpp>

#include "../check/one_file.h"
#include "check/check.h"
#include "write/write.h"

namespace ordinatio::ink_apart_test {
using Catch::Contains;

namespace {

Sheet sheet_of(std::vector<Layer> layers) {
  BedPlan plan;
  plan.machine = {140, 120};
  plan.jig.fill_bed = false;
  plan.jig.columns = plan.jig.rows = 1, plan.jig.first = {30, 30};
  plan.jig.pocket_width = 60, plan.jig.pocket_height = 40;
  plan.marks.places = {{10, 10}, {130, 10}, {10, 110}};
  const auto frame = lay_bed(plan, 60, 40);
  REQUIRE(frame.ok());
  SheetItem item;
  item.item.id = "1-1";
  item.artwork.blank.outline = rectangle_outline(60, 40, Corner::square, 0);
  item.artwork.clear_area.region = region_of(*inset(item.artwork.blank.outline, 2));
  item.artwork.layers = std::move(layers);
  auto sheet = build_sheet(*frame, {item}, "sheet-001", 1);
  REQUIRE(sheet.ok());
  return *std::move(sheet);
}

Path border() {
  Path path;
  path.add_rectangle({3, 3, 57, 37});
  Path inner;
  inner.add_rectangle({4, 4, 56, 36});
  path.append(reversed(inner));
  return path;
}

Path logo_at(double bottom) {
  Path path;
  path.move_to({20, bottom});
  path.line_to({40, bottom});
  path.quad_to({38, bottom + 12}, {20, bottom + 10});
  path.close();
  return path;
}

void check_files(const Sheet& sheet, const std::string& told) {
  const std::pair<const char*, MaybeFault> files[] = {
      {"SVG", check_svg(write_svg(sheet), sheet)},
      {"DXF R12", check_dxf(write_dxf(sheet), sheet)},
      {"DXF R2000", check_dxf(write_dxf(sheet, {DxfVersion::r2000}), sheet)}};
  for (const auto& [name, fault] : files) {
    INFO(name);
    if (told.empty()) {
      CHECK_FALSE(fault);
    } else {
      REQUIRE(fault);
      CHECK_THAT(fault->what, Contains(told));
    }
  }
}

}  // namespace

TEST_CASE("a file is refused in which a logo lies over the border") {
  Path apart = border(), over = border();
  apart.append(logo_at(6));
  over.append(logo_at(2.5));
  check_files(sheet_of({{Operation::engrave, apart}}), "");
  check_files(sheet_of({{Operation::engrave, over}}), "item 1-1: ink lies over ink, ");
}

TEST_CASE("a file is refused in which a scored line runs through the logo") {
  Path line;
  line.add_rectangle({3, 3, 57, 37});
  check_files(sheet_of({{Operation::engrave, logo_at(6)}, {Operation::score, line}}), "");
  check_files(sheet_of({{Operation::engrave, logo_at(2.2)}, {Operation::score, line}}), "item 1-1: a line runs 0.");
}

}  // namespace ordinatio::ink_apart_test
