#include "bed/jig.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "bed/jig_hole.h"
#include "bed_plans.h"

namespace ordinatio::jig_test {
using Catch::Contains;
using Datum = Jig::Datum;

namespace {

constexpr Datum all_datums[] = {Datum::lower_left, Datum::lower_right, Datum::upper_left, Datum::upper_right};

Typesetter& typesetter() {
  static const FontLibrary library("none");
  static Typesetter one(library);
  return one;
}

/// Room enough between pockets for notches of 20 mm.
BedPlan roomy(Datum datum = Datum::lower_left) {
  BedPlan plan = filled_bed(600, 400, 24, 30, Jig::Lie::as_drawn);
  plan.jig.datum = datum;
  return plan;
}

Frame laid(const BedPlan& plan, double width = 100, double height = 60) {
  auto frame = lay_bed(plan, width, height);
  if (!frame.ok()) FAIL(describe(frame.fault()));
  return *std::move(frame);
}

Board board_of(const Frame& frame) {
  auto board = build_jig(frame, typesetter());
  if (!board.ok()) FAIL(describe(board.fault()));
  return *std::move(board);
}

std::string refused(const Frame& frame) {
  const auto board = build_jig(frame, typesetter());
  REQUIRE_FALSE(board.ok());
  CHECK(board.fault().where == "shop.toml, [jig]");
  CHECK_FALSE(board.fault().mend.empty());
  return board.fault().what;
}

std::vector<const SheetPart*> parts_of(const Sheet& sheet, Operation operation) {
  std::vector<const SheetPart*> parts;
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == operation) parts.push_back(&part);
  }
  return parts;
}

/// What is gone when a beam as wide as the kerf has followed the path: clipper's offset, not our own arithmetic.
Polygons cut_away(const Path& path, double kerf) {
  return offset(polygons_of(path, 1e-4), kerf / 2, Join::round, 1e-4);
}

Bounds bounds_of_all(const Polygons& polygons) {
  Bounds box;
  for (const Polygon& polygon : polygons) {
    for (const Point p : polygon) box.add(p);
  }
  return box;
}

Point datum_corner(const Bounds& box, Datum datum) {
  return {is_left(datum) ? box.left : box.right, is_lower(datum) ? box.bottom : box.top};
}

}  // namespace

TEST_CASE("every pocket's datum corner is where sheets put their pieces, turned or not, for every datum") {
  for (const Datum datum : all_datums) {
    for (const Jig::Lie lie : {Jig::Lie::as_drawn, Jig::Lie::quarter_turn}) {
      for (const double spare : {0.0, 6.0}) {  // pockets as large as the piece, or larger
        BedPlan plan = roomy(datum);
        plan.jig.lie = lie;
        plan.jig.notch = 0;
        plan.jig.fill_bed = false;
        plan.jig.columns = 3, plan.jig.rows = 2, plan.jig.first = {40, 40}, plan.jig.pitch_x = plan.jig.pitch_y = 150;
        const bool turned = lie == Jig::Lie::quarter_turn;
        plan.jig.pocket_width = (turned ? 30 : 50) + spare, plan.jig.pocket_height = (turned ? 50 : 30) + spare;
        const Frame frame = laid(plan, 50, 30);
        const Board board = board_of(frame);
        const auto sheet = build_sheet(frame, plain_items(6), "sheet-001", 1);
        REQUIRE(sheet.ok());
        const auto holes = parts_of(board.sheet, Operation::cut);
        REQUIRE(holes.size() == 6);
        for (std::size_t i = 0; i < 6; ++i) {
          const Bounds piece = bounds_of(transformed(path_of(sheet->items[i].artwork.blank), sheet->items[i].to_bed));
          const Bounds hole = bounds_of_all(cut_away(holes[i]->path, plan.jig.kerf));
          INFO("datum " << static_cast<int>(datum) << ", turned " << turned << ", pocket " << i + 1);
          CHECK(length(datum_corner(piece, datum) - datum_corner(hole, datum)) < 1e-3);
          CHECK(length(datum_corner(piece, datum) - datum_corner(frame.pockets[i].box, datum)) < 1e-9);
          CHECK(hole.width() == Approx(std::max(piece.width() + 0.5, piece.width() + spare)).margin(1e-3));
          CHECK(hole.height() == Approx(std::max(piece.height() + 0.5, piece.height() + spare)).margin(1e-3));
        }
      }
    }
  }
}

TEST_CASE("a hole comes out at its size: piece and clearance and two half discs, whatever the kerf") {
  for (const Datum datum : all_datums) {
    for (const double kerf : {0.0, 0.2, 1.5}) {
      BedPlan plan = roomy(datum);
      plan.jig.kerf = kerf, plan.jig.clearance = 1;
      const Board board = board_of(laid(plan));
      CHECK(board.notch == 20);
      CHECK(board.hole_width == Approx(101));
      CHECK(board.hole_height == Approx(61));
      const SheetPart& hole = *parts_of(board.sheet, Operation::cut).front();
      CHECK(flatten(hole.path, 0.01).size() == 1);
      CHECK(flatten(hole.path, 0.01)[0].closed);
      const double round_corners = 4 * (1 - std::numbers::pi / 4) * kerf * kerf / 4;
      const double area = area_of(cut_away(hole.path, kerf));
      CHECK(area == Approx(101 * 61 + std::numbers::pi * 100 - round_corners).margin(0.02));
    }
  }
}

TEST_CASE("notches are in the middle of the sides away from the datum, and the edges at the datum stay whole") {
  for (const Datum datum : all_datums) {
    const Frame frame = laid(roomy(datum));
    const Board board = board_of(frame);
    const Path& path = parts_of(board.sheet, Operation::cut).front()->path;
    const Hole plain = hole_for(frame, frame.pockets.front());
    const Bounds cut = bounds_of(path), box = plain.box;
    const double half = frame.plan.jig.kerf / 2;
    CHECK(std::abs(datum_corner(cut, datum).x - datum_corner(box, datum).x) == Approx(half).margin(1e-9));
    CHECK(std::abs(datum_corner(cut, datum).y - datum_corner(box, datum).y) == Approx(half).margin(1e-9));
    CHECK(cut.width() == Approx(box.width() + 10 - 2 * half).margin(1e-4));
    CHECK(cut.height() == Approx(box.height() + 10 - 2 * half).margin(1e-4));
    // The beam starts across from the datum.
    CHECK(length(path.points().front() - box.centre()) < length(Point{box.width(), box.height()}) / 2);
    CHECK((path.points().front().x > box.centre().x) == is_left(datum));
    CHECK((path.points().front().y > box.centre().y) == is_lower(datum));
    CHECK(area_of(path) > 0);
    // A disc's points lie on the sides' middles.
    const auto [across, over] = Hole{1, box, datum, 10}.notches();
    CHECK(across.y == box.centre().y);
    CHECK(over.x == box.centre().x);
  }
}

TEST_CASE("notches give way to neighbours, in halves of a millimetre, and then are refused") {
  BedPlan plan = roomy();
  plan.jig.gap = 16;  // 15.5 between holes, 3 of it a web: a radius of 12.5
  CHECK(board_of(laid(plan)).notch == 20);
  plan.jig.gap = 10;  // 9.5 less 3
  CHECK(board_of(laid(plan)).notch == 13);
  plan.jig.gap = 8.5;
  CHECK(board_of(laid(plan)).notch == 10);
  plan.jig.gap = 8.4;
  CHECK(refused(laid(plan)) == "there is no room for finger notches");
  plan.jig.notch = 0;
  CHECK(board_of(laid(plan)).notch == 0);
  plan.jig.notch = 6;  // so small a one was asked for
  CHECK(board_of(laid(plan)).notch == 6);
}

TEST_CASE("between two holes there is always a web, notches and all") {
  for (const double gap : {9.0, 10.0, 14.0, 24.0}) {
    for (const Datum datum : all_datums) {
      BedPlan plan = roomy(datum);
      plan.jig.gap = gap;
      const Frame frame = laid(plan);
      const Board board = board_of(frame);
      std::vector<Polygons> holes;
      for (const SheetPart* part : parts_of(board.sheet, Operation::cut)) {
        holes.push_back(offset(cut_away(part->path, plan.jig.kerf), 1.49, Join::round, 1e-3));
      }
      for (std::size_t i = 0; i < holes.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) CHECK(intersection(holes[i], holes[j], 1e-4).empty());
      }
    }
  }
}

TEST_CASE("holes that would run into one another, off the bed or over a mark are refused") {
  BedPlan plan = cut_board();  // 80 and 70 apart, pockets of 60 × 40
  plan.jig.notch = 0;
  CHECK(board_of(laid(plan, 60, 40)).notch == 0);
  plan.jig.clearance = 18;
  CHECK(refused(laid(plan, 60, 40)) == "pockets 1 and 2 leave a web of 2 mm");
  plan.jig.clearance = 25;
  CHECK(refused(laid(plan, 60, 40)) == "pockets 1 and 2 run into one another");
  plan.jig.clearance = 41;
  plan.jig.columns = 1, plan.jig.rows = 1, plan.jig.first = {200, 50};
  CHECK(refused(laid(plan, 60, 40)) == "the hole of pocket 1 reaches off the bed");
  plan.jig.clearance = 25;
  plan.marks.places = {{10, 10}, {290, 10}, {270, 100}};
  CHECK(refused(laid(plan, 60, 40)) == "the hole of pocket 1 cuts mark 3 away");
  plan.marks.places.clear();
  plan.jig.clearance = 0, plan.jig.kerf = 50;
  CHECK(refused(laid(plan, 60, 40)) == "the hole of pocket 1 is no wider than the beam");
}

TEST_CASE("every pocket has its number on the board, nearest to its hole, clear of holes, marks and one another") {
  for (const Datum datum : all_datums) {
    for (const double gap : {9.0, 12.0, 24.0}) {
      BedPlan plan = roomy(datum);
      plan.jig.gap = gap;
      const Frame frame = laid(plan);
      const Board board = board_of(frame);
      auto numbers = parts_of(board.sheet, Operation::engrave);
      std::erase_if(numbers, [](const SheetPart* part) { return part->id.starts_with("mark-"); });
      REQUIRE(numbers.size() == frame.pockets.size());
      Polygons holes;
      for (const SheetPart* part : parts_of(board.sheet, Operation::cut)) {
        for (Polygon& polygon : cut_away(part->path, plan.jig.kerf)) holes.push_back(std::move(polygon));
      }
      for (std::size_t i = 0; i < numbers.size(); ++i) {
        CHECK(numbers[i]->id == "pocket-" + std::to_string(i + 1));
        CHECK(area_of(numbers[i]->path) > 0);
        const Bounds box = bounds_of(numbers[i]->path);
        CHECK(box.height() <= board.number_height + 0.01);
        CHECK(box.height() > 0.9 * board.number_height);
        Path around;
        around.add_rectangle({box.left - 0.99, box.bottom - 0.99, box.right + 0.99, box.top + 0.99});
        CHECK(intersection(polygons_of(around, 0.01), holes, 1e-4).empty());
        for (std::size_t j = 0; j < i; ++j) {
          const double own = distance(hole_for(frame, frame.pockets[i]).box, box);
          CHECK(own < distance(hole_for(frame, frame.pockets[j]).box, box));
        }
        for (const SheetPart* mark : parts_of(board.sheet, Operation::mark)) {
          CHECK_FALSE(overlap(bounds_of(around), bounds_of(mark->path)));
        }
        for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(bounds_of(around), bounds_of(numbers[j]->path)));
      }
    }
  }
}

TEST_CASE(
    "every mark has its number on the board, nearest to it, clear of holes, of marks and of the pockets' numbers") {
  for (const Datum datum : all_datums) {
    const Frame frame = laid(roomy(datum));
    const Board board = board_of(frame);
    std::vector<Bounds> others;
    for (const SheetPart& part : board.sheet.parts) {
      if (part.operation != Operation::engrave || !part.id.starts_with("mark-")) others.push_back(bounds_of(part.path));
    }
    std::size_t numbered = 0;
    for (const SheetPart* part : parts_of(board.sheet, Operation::engrave)) {
      if (!part->id.starts_with("mark-")) continue;
      const Bounds box = bounds_of(part->path);
      const std::string id = "mark-" + std::to_string(++numbered);
      CHECK(part->id == id);
      CHECK(std::ranges::none_of(others, [&](const Bounds& other) { return overlap(box, other); }));
      const auto away = [&](Point mark) { return length(mark - box.centre()); };
      CHECK(std::ranges::min_element(frame.marks, {}, away) - frame.marks.begin() ==
            static_cast<std::ptrdiff_t>(numbered) - 1);
    }
    CHECK(numbered == frame.marks.size());
  }
}

TEST_CASE("numbers are as large as their room, and refused where there is none") {
  BedPlan plan = roomy();
  CHECK(board_of(laid(plan)).number_height == 10);
  plan.jig.gap = 9;  // 8.5, less 1 to its own hole and 3 to the other
  CHECK(board_of(laid(plan)).number_height == 3.5);
  Frame tight = laid(cut_board(), 60, 40);
  tight.plan.jig.notch = 0, tight.plan.jig.clearance = 0;
  tight.plan.machine = {64, 44}, tight.pockets = {{1, {2, 2, 62, 42}, false}}, tight.marks.clear();
  CHECK(refused(tight) == "there is no room for the pockets' numbers");
}

TEST_CASE("a board has the marks and the scale bar of every sheet, and no items") {
  const Frame frame = laid(roomy());
  const Board board = board_of(frame);
  const auto sheet = build_sheet(frame, {}, "sheet-001", 1);
  CHECK(board.sheet.items.empty());
  CHECK(std::ranges::is_sorted(board.sheet.parts, {}, &SheetPart::operation));
  const auto marks = parts_of(board.sheet, Operation::mark), wanted = parts_of(*sheet, Operation::mark);
  REQUIRE(marks.size() == wanted.size());
  for (std::size_t i = 0; i < marks.size(); ++i) {
    CHECK(marks[i]->id == wanted[i]->id);
    CHECK(marks[i]->path == wanted[i]->path);
  }
  CHECK(parts_of(board.sheet, Operation::guide).size() == 1);
}

TEST_CASE("a short piece lies at the datum corner of its pocket, turned or not, and is never mirrored") {
  for (const Datum datum : all_datums) {
    for (const bool turned : {false, true}) {
      const Pocket pocket{1, {40, 50, 140, 130}, turned};
      const Transform place = blank_to_bed(pocket, 70, 55, datum);
      Path blank;
      blank.add_rectangle({0, 0, 70, 55});
      const Bounds lies = bounds_of(transformed(blank, place));
      CHECK(lies.width() == Approx(turned ? 55 : 70));
      CHECK(length(datum_corner(lies, datum) - datum_corner(pocket.box, datum)) < 1e-12);
      CHECK(place.determinant() == 1);
    }
  }
}

}  // namespace ordinatio::jig_test
