#include "machine/sheet_order.h"

#include <catch2/catch.hpp>

#include "../bed/bed_plans.h"
#include "geometry/contour_order.h"

namespace ordinatio::sheet_order_test {

namespace {

std::vector<std::string> ids_of(const Sheet& sheet, Operation operation) {
  std::vector<std::string> ids;
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == operation) ids.push_back(part.id);
  }
  return ids;
}

}  // namespace

TEST_CASE("all operations take the pieces in one order, to and fro from the first pocket on; marks and guides stay") {
  const Frame frame = *lay_bed(cut_board(), 50, 30);
  Sheet sheet = *build_sheet(frame, plain_items(6), "sheet-001", 1);
  const std::vector<std::string> marks = ids_of(sheet, Operation::mark), guides = ids_of(sheet, Operation::guide);
  order_work(sheet);
  const std::vector<std::string> order{"1042-1", "1042-2", "1042-3", "1042-6", "1042-5", "1042-4"};
  CHECK(ids_of(sheet, Operation::engrave) == order);
  CHECK(ids_of(sheet, Operation::score) == order);
  CHECK(ids_of(sheet, Operation::mark) == marks);
  CHECK(ids_of(sheet, Operation::guide) == guides);
  for (std::size_t i = 1; i < sheet.parts.size(); ++i) CHECK(sheet.parts[i - 1].operation <= sheet.parts[i].operation);
}

TEST_CASE("what is filled is drawn as it was, what is scored begins where the way is short") {
  const Frame frame = *lay_bed(cut_board(), 50, 30);
  const Sheet drawn = *build_sheet(frame, plain_items(6), "sheet-001", 1);
  Sheet sheet = drawn;
  order_work(sheet);
  Point last;
  bool is_first = true;
  double travel = 0, before = 0;
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == Operation::engrave) {
      const auto was = std::ranges::find(drawn.parts, part.id, &SheetPart::id);
      CHECK(part.path == was->path);
    }
    if (part.operation != Operation::score) continue;
    if (!std::exchange(is_first, false)) travel += length(part.path.points().front() - last);
    last = part.path.points().back();
  }
  is_first = true;
  for (const SheetPart& part : drawn.parts) {
    if (part.operation != Operation::score) continue;
    if (!std::exchange(is_first, false)) before += length(part.path.points().front() - last);
    last = part.path.points().back();
  }
  // Lines of 40 mm at a pitch of 80: 40 between them, and 70 to the other row, which is followed backwards.
  CHECK(travel == Approx(2 * (40 + 40) + 70));
  CHECK(before > 1.4 * travel);
}

TEST_CASE("the items, their hashes and their places are as they were") {
  const Frame frame = *lay_bed(cut_board(), 50, 30);
  const Sheet drawn = *build_sheet(frame, plain_items(5), "sheet-001", 1);
  Sheet sheet = drawn;
  order_work(sheet);
  REQUIRE(sheet.items.size() == drawn.items.size());
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    CHECK(sheet.items[i].pocket == drawn.items[i].pocket);
    CHECK(hash_of(sheet.items[i].artwork.layers) == hash_of(drawn.items[i].artwork.layers));
  }
  Sheet again = sheet;
  order_work(again);
  for (std::size_t i = 0; i < sheet.parts.size(); ++i) CHECK(again.parts[i].path == sheet.parts[i].path);
}

}  // namespace ordinatio::sheet_order_test
