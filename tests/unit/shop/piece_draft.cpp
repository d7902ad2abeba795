// A piece as it is drawn, and its cells.
#include "shop/piece_draft.h"

#include <catch2/catch.hpp>

namespace ordinatio::piece_draft_test {
using Catch::Contains;
namespace {

PieceDraft drawn(const std::vector<std::string>& spots) {
  PieceDraft draft;
  draft.id = " S-9 ";
  for (const std::string& spot : spots) {
    if (auto fault = add_spot(draft, spot)) FAIL(describe(*fault));
  }
  return draft;
}
std::string cell(const PieceDraft& draft, const std::string& column) {
  for (const BlankCell& one : cells_of(draft)) {
    if (one.column == column) return one.text;
  }
  return "none";
}
Design nominal() {
  Design design;
  design.width = 150, design.height = 100;
  design.blank.outline = rectangle_outline(150, 100, Corner::square, 0);
  return design;
}

const std::vector<std::string> slate{"corner 10 20", "corner 160.004 20", "corner 160 100", "corner 10.5 120"};

}  // namespace

TEST_CASE("places are told from the box around the corners, to a hundredth") {
  const PieceDraft draft = drawn(slate);
  CHECK(cell(draft, "id") == "S-9");
  CHECK(cell(draft, "outline") == "0,0 150,0 150,80 0.5,100");
  CHECK(cell(draft, "chips").empty());
}

TEST_CASE("a chip goes to the edge that it lies at, and no farther than the piece") {
  const Point origin{10, 20};
  const std::pair<std::string, std::string> cases[]{
      {"40 93 22 7", "top 40-62 7"},        {"40 90 22 30", "top 40-62 10"}, {"-5 30 9 10", "left 30-40 4"},
      {"140 0 10 24", "bottom 140-150 24"}, {"60 1 30 5", "bottom 60-90 6"}, {"146 50 20 10", "right 50-60 4"},
      {"20 60 10 60", "top 20-30 40"}};
  for (const auto& [text, expected] : cases) {
    PieceDraft draft = drawn({"corner 10 20", "corner 160 20", "corner 160 120", "corner 10 120", "chip " + text});
    draft.chips[0].left += origin.x, draft.chips[0].right += origin.x;
    draft.chips[0].bottom += origin.y, draft.chips[0].top += origin.y;
    INFO(text);
    const std::string found = cell(draft, "chips");
    // At a corner either edge says the same chip.
    CHECK((found == expected || (text == "140 0 10 24" && found == "right 0-24 10")));
  }
}

TEST_CASE("what is kept clear keeps its name and its margin") {
  std::vector<std::string> spots = slate;
  spots.insert(spots.end(),
               {"area 32 44 46 24 3 old stamp; faint", "round 62 108 8 8 0 nail hole", "area 90 40 5 5 0"});
  const PieceDraft draft = drawn(spots);
  CHECK(cell(draft, "keep_clear") == "old stamp, faint 22 24 46 24 margin 3; nail hole round 56 92 4; 80 20 5 5");
  const auto piece = piece_of(cells_of(draft), nominal());
  REQUIRE(piece.ok());
  REQUIRE(piece->blank.kept_clear.size() == 3);
  CHECK(piece->blank.kept_clear[0].margin == 3);
  CHECK(piece->blank.kept_clear[1].radius == 4);
}

TEST_CASE("what is no place is refused, and what is no piece is told with its column") {
  PieceDraft draft;
  for (const char* text : {"", "corner", "corner 1", "corner x 2", "corner nan 2", "corner 1e300 2", "corner 20000 1",
                           "chip 1 2 3", "area 1 2 3 4", "moon 1 2 3 4 5", "1 2 3 4 5"}) {
    INFO(text);
    CHECK(add_spot(draft, text));
  }
  CHECK(draft.corners.empty());
  const auto crossed =
      piece_of(cells_of(drawn({"corner 0 0", "corner 50 50", "corner 50 0", "corner 0 60"})), nominal());
  REQUIRE_FALSE(crossed.ok());
  CHECK_THAT(describe(crossed.fault()), Contains("column \"outline\": the outline crosses itself"));
  const auto two = piece_of(cells_of(drawn({"corner 0 0", "corner 50 50"})), nominal());
  CHECK_FALSE(two.ok());
}

TEST_CASE("the next piece's id follows the last one's") {
  const auto next = [](const std::vector<std::string>& ids) {
    std::vector<BlankRow> rows;
    for (const std::string& id : ids) {
      rows.emplace_back();
      rows.back().blank.id = id;
    }
    return next_id(rows);
  };
  CHECK(next({"S-9"}) == "S-10");
  CHECK(next({"S-008", "S-007"}) == "S-009");
  CHECK(next({"41"}) == "42");
  CHECK(next({"big slate"}).empty());
  CHECK(next({"S-12345678901234567890"}).empty());
  CHECK(next({}).empty());
}

}  // namespace ordinatio::piece_draft_test
