#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "bed_plans.h"

namespace ordinatio::sheet_test {

namespace {

Frame laid(const BedPlan& plan) {
  auto frame = lay_bed(plan, 50, 30);
  REQUIRE(frame.ok());
  return *std::move(frame);
}

Sheet built(const BedPlan& plan, int items, const std::vector<int>& pockets = {}) {
  auto sheet = build_sheet(laid(plan), plain_items(items), "sheet-001", 1, pockets);
  REQUIRE(sheet.ok());
  return *std::move(sheet);
}

std::string refused(int items, const std::vector<int>& pockets = {}) {
  const auto sheet = build_sheet(laid(cut_board()), plain_items(items), "sheet-001", 1, pockets);
  REQUIRE_FALSE(sheet.ok());
  CHECK(sheet.fault().why == "the jig has 6 pockets");
  CHECK(sheet.fault().mend == "Name a free pocket from 1 to 6");
  return sheet.fault().what;
}

const SheetPart* find_part(const Sheet& sheet, Operation operation, const std::string& id) {
  const auto found = std::ranges::find_if(
      sheet.parts, [&](const SheetPart& part) { return part.operation == operation && part.id == id; });
  return found == sheet.parts.end() ? nullptr : &*found;
}

bool lies_in(const Bounds& inner, const Bounds& outer) {
  return inner.left >= outer.left - 1e-9 && inner.right <= outer.right + 1e-9 && inner.bottom >= outer.bottom - 1e-9 &&
         inner.top <= outer.top + 1e-9;
}

}  // namespace

TEST_CASE("a bed that cannot be laid says why: pockets first, then marks") {
  BedPlan plan = cut_board();
  plan.jig.first = {200, 50};
  plan.marks.places = {{10, 10}, {20, 10}, {30, 10}};
  CHECK(lay_bed(plan, 50, 30).fault().where == "shop.toml, [jig]");
  plan.jig.first = {40, 50};
  CHECK(lay_bed(plan, 50, 30).fault().where == "shop.toml, [marks]");
}

TEST_CASE("items go into the first pockets, in order, or where they are told to go") {
  const Sheet first = built(cut_board(), 3);
  for (std::size_t i = 0; i < 3; ++i) CHECK(first.items[i].pocket == static_cast<int>(i) + 1);
  const Sheet told = built(cut_board(), 2, {5, 2});
  CHECK(told.items[0].pocket == 5);
  CHECK(told.items[1].pocket == 2);
  CHECK(told.items[0].to_bed == shift_by({120, 50}));
  CHECK(told.items[1].to_bed == shift_by({120, 120}));
}

TEST_CASE("items that have no pocket of their own are refused") {
  CHECK(refused(7) == "there is no pocket 7");
  CHECK(refused(1, {0}) == "there is no pocket 0");
  CHECK(refused(1, {-1}) == "there is no pocket -1");
  CHECK(refused(1, {7}) == "there is no pocket 7");
  CHECK(refused(2, {3, 3}) == "two items are meant for pocket 3");
}

TEST_CASE("an item's ink lies in its own pocket, turned or not") {
  for (const Jig::Lie lie : {Jig::Lie::as_drawn, Jig::Lie::quarter_turn}) {
    BedPlan plan = cut_board();
    plan.jig.lie = lie;
    plan.jig.pocket_width = plan.jig.pocket_height = 55;
    const Sheet sheet = built(plan, 6);
    for (const SheetItem& item : sheet.items) {
      const Pocket& pocket = sheet.frame.pockets[static_cast<std::size_t>(item.pocket) - 1];
      for (const Operation operation : {Operation::engrave, Operation::score}) {
        const SheetPart* part = find_part(sheet, operation, item.item.id);
        REQUIRE(part != nullptr);
        CHECK(lies_in(bounds_of(part->path), pocket.box));
        CHECK(area_of(part->path) == Approx(operation == Operation::engrave ? 50 : 0));  // not mirrored
      }
    }
  }
}

TEST_CASE("a turned blank's ink is where the blank is turned to") {
  BedPlan plan = cut_board();
  plan.jig.lie = Jig::Lie::quarter_turn;
  plan.jig.pocket_width = plan.jig.pocket_height = 55;
  const Sheet sheet = built(plan, 1);
  // The rectangle (5, 5) to (15, 10) of a blank 30 high, in the pocket at (40, 120).
  CHECK(bounds_of(find_part(sheet, Operation::engrave, "1042-1")->path) == Bounds{60, 125, 65, 135});
}

TEST_CASE("parts come by operation, in the operations' order, each with an id of its own there") {
  const Sheet sheet = built(cut_board(), 4);
  CHECK(std::ranges::is_sorted(sheet.parts, {}, &SheetPart::operation));
  std::set<std::pair<Operation, std::string>> ids;
  for (const SheetPart& part : sheet.parts) {
    CHECK(ids.emplace(part.operation, part.id).second);
    CHECK_FALSE(part.path.empty());
    CHECK_FALSE(part.title.empty());
  }
  CHECK(find_part(sheet, Operation::engrave, "1042-3")->title == "item 1042-3, pocket 3");
}

TEST_CASE("marks are on the mark operation alone, where the frame has them") {
  const Sheet sheet = built(cut_board(), 1);
  std::size_t marks = 0;
  for (const SheetPart& part : sheet.parts) marks += part.operation == Operation::mark ? 1 : 0;
  REQUIRE(marks == sheet.frame.marks.size());
  for (std::size_t i = 0; i < marks; ++i) {
    const SheetPart* mark = find_part(sheet, Operation::mark, "mark-" + std::to_string(i + 1));
    REQUIRE(mark != nullptr);
    CHECK(length(bounds_of(mark->path).centre() - sheet.frame.marks[i]) < 1e-9);
  }
}

TEST_CASE("outlines of blanks and the scale bar are on the guide operation alone, an outline for each item") {
  const Sheet sheet = built(cut_board(), 2, {6, 1});
  std::vector<std::string> guides;
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == Operation::guide) guides.push_back(part.id);
    const bool is_guide = part.id.starts_with("blank-") || part.id == "scale-bar";
    CHECK(is_guide == (part.operation == Operation::guide));
  }
  CHECK(guides == std::vector<std::string>{"blank-6", "blank-1", "scale-bar"});
  CHECK(bounds_of(find_part(sheet, Operation::guide, "blank-6")->path) == Bounds{200, 50, 250, 80});
}

TEST_CASE("the scale bar is 100 mm long, level, on the bed, and clear of pockets and marks") {
  const BedPlan plans[] = {cut_board(), filled_bed(600, 400, 10, 20, Jig::Lie::as_fits),
                           filled_bed(300, 300, 10, 12, Jig::Lie::quarter_turn)};
  for (const BedPlan& plan : plans) {
    const Sheet sheet = built(plan, 1);
    const SheetPart* bar = find_part(sheet, Operation::guide, "scale-bar");
    REQUIRE(bar != nullptr);
    const Bounds box = bounds_of(bar->path);
    CHECK(box.width() == Approx(100).margin(1e-9));
    CHECK(bar->path.points()[0].y == bar->path.points()[1].y);
    CHECK(lies_in(box, {0, 0, plan.machine.width, plan.machine.height}));
    for (const Pocket& pocket : sheet.frame.pockets) CHECK_FALSE(overlap(box, pocket.box));
    const double arm = plan.marks.size / 2;
    for (const Point m : sheet.frame.marks) CHECK_FALSE(overlap(box, {m.x - arm, m.y - arm, m.x + arm, m.y + arm}));
  }
}

TEST_CASE("the scale bar goes to the upper edge where the lower one is taken, and nowhere where it was not asked for") {
  BedPlan plan = cut_board();
  plan.jig.first = {40, 2};
  CHECK(bounds_of(find_part(built(plan, 1), Operation::guide, "scale-bar")->path).bottom > 150);
  plan.scale_bar = false;
  CHECK(find_part(built(plan, 1), Operation::guide, "scale-bar") == nullptr);
}

TEST_CASE("a sheet without items still has its marks and its scale bar") {
  const Sheet sheet = built(cut_board(), 0);
  CHECK(sheet.parts.size() == sheet.frame.marks.size() + 1);
}

}  // namespace ordinatio::sheet_test
