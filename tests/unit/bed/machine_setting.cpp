#include "bed/machine_setting.h"

#include <catch2/catch.hpp>

#include "bed_plans.h"

namespace ordinatio::machine_setting_test {
using Catch::Matchers::Contains;

namespace {

SheetItem piece_of(const std::string& id, const std::string& material, std::optional<double> thickness = {},
                   bool from_behind = false) {
  SheetItem item = plain_item(id);
  item.artwork.blank.material = material;
  item.artwork.blank.thickness = thickness;
  item.artwork.from_behind = from_behind;
  return item;
}

Result<Sheet> sheet_of(std::vector<SheetItem> items, BedPlan plan = cut_board()) {
  return build_sheet(*lay_bed(plan, 50, 30), std::move(items), "sheet-001", 1);
}

}  // namespace

TEST_CASE("a sheet whose pieces need different settings is not built, and both are named") {
  const std::vector<std::pair<SheetItem, SheetItem>> pairs{
      {piece_of("1-1", "slate"), piece_of("2-1", "glass")},
      {piece_of("1-1", "slate"), piece_of("2-1", "")},
      {piece_of("1-1", "glass"), piece_of("2-1", "glass", {}, true)},
      {piece_of("1-1", "slate", 6), piece_of("2-1", "slate", 7.51)},
      {piece_of("1-1", "slate", 6), piece_of("2-1", "slate")}};
  for (const auto& [one, other] : pairs) {
    const Result<Sheet> sheet = sheet_of({one, other});
    REQUIRE_FALSE(sheet.ok());
    CHECK(sheet.fault().where == "sheet-001");
    CHECK_THAT(sheet.fault().why, Contains("1-1 is") && Contains("2-1 is"));
  }
}

TEST_CASE("the spread of a sheet is that of all its pieces, not of neighbours") {
  CHECK(sheet_of({piece_of("1-1", "slate", 6), piece_of("2-1", "slate", 7.5)}).ok());
  CHECK_FALSE(sheet_of({piece_of("1-1", "slate", 6), piece_of("2-1", "slate", 7), piece_of("3-1", "slate", 8)}).ok());
  BedPlan plan = cut_board();
  plan.machine.thickness_spread = 2;
  CHECK(sheet_of({piece_of("1-1", "slate", 6), piece_of("2-1", "slate", 7), piece_of("3-1", "slate", 8)}, plan).ok());
}

TEST_CASE("a setting is told in the trade's words, and nothing where there is nothing to tell") {
  const auto text = [](std::vector<SheetItem> items, const std::string& jig = "") {
    BedPlan plan = cut_board();
    plan.jig.name = jig;
    return setting_text(*sheet_of(std::move(items), plan));
  };
  CHECK(text({piece_of("1-1", "")}).empty());
  CHECK(text({piece_of("1-1", "slate")}) == "slate");
  CHECK(text({piece_of("1-1", "glass", 3.9, true), piece_of("2-1", "Glass", 4.1, true)}) ==
        "glass, 3.9 to 4.1 mm thick, from behind: lay face down");
  CHECK(text({piece_of("1-1", "", 4)}, "feet") == "jig feet: 4 mm thick");
  CHECK(text({piece_of("1-1", "")}, "feet") == "jig feet");
}

TEST_CASE("one material has one key however it is typed") {
  CHECK(material_key(" Blue  slate ") == "blue slate");
  CHECK(material_key("blue slate") != material_key("green slate"));
}

}  // namespace ordinatio::machine_setting_test
