#include <catch2/catch.hpp>

#include "bed_plans.h"

namespace ordinatio::pockets_test {

namespace {

std::vector<Pocket> placed(const BedPlan& plan, double width, double height) {
  auto pockets = place_pockets(plan, width, height);
  REQUIRE(pockets.ok());
  return *std::move(pockets);
}

std::string refused(const BedPlan& plan, double width, double height) {
  const auto pockets = place_pockets(plan, width, height);
  REQUIRE_FALSE(pockets.ok());
  CHECK(pockets.fault().where == "shop.toml, [jig]");
  CHECK_FALSE(pockets.fault().mend.empty());
  return pockets.fault().what;
}

/// Where pockets 1, 2, … begin.
std::vector<Point> corners(const std::vector<Pocket>& pockets) {
  std::vector<Point> points;
  for (const Pocket& pocket : pockets) points.push_back({pocket.box.left, pocket.box.bottom});
  return points;
}

}  // namespace

TEST_CASE("pockets are numbered in the order that the jig asks for") {
  const Point a{40, 120}, b{120, 120}, c{200, 120}, d{40, 50}, e{120, 50}, f{200, 50};  // as they lie on the bed
  const std::pair<Jig::Order, std::vector<Point>> orders[] = {{Jig::Order::rows_from_top, {a, b, c, d, e, f}},
                                                              {Jig::Order::rows_from_bottom, {d, e, f, a, b, c}},
                                                              {Jig::Order::columns_from_top, {a, d, b, e, c, f}},
                                                              {Jig::Order::columns_from_bottom, {d, a, e, b, f, c}}};
  for (const auto& [order, wanted] : orders) {
    BedPlan plan = cut_board();
    plan.jig.order = order;
    const auto pockets = placed(plan, 60, 40);
    CHECK(corners(pockets) == wanted);
    for (std::size_t i = 0; i < pockets.size(); ++i) CHECK(pockets[i].number == static_cast<int>(i) + 1);
  }
}

TEST_CASE("a pocket has the jig's size, or without one the size of the blank as it lies") {
  BedPlan plan = cut_board();
  CHECK(placed(plan, 50, 30)[0].box == Bounds{40, 120, 100, 160});
  plan.jig.pocket_width = plan.jig.pocket_height = 0;
  CHECK(placed(plan, 50, 30)[0].box == Bounds{40, 120, 90, 150});
  plan.jig.lie = Jig::Lie::quarter_turn;
  CHECK(placed(plan, 50, 30)[0].box == Bounds{40, 120, 70, 170});
}

TEST_CASE("a blank lies as the jig says, and where it may choose, as drawn first") {
  struct Lying {
    Jig::Lie lie;
    double width, height;  // of the blank, for a pocket of 60 × 40
    std::optional<bool> turned;
  };
  using enum Jig::Lie;
  const Lying table[] = {{as_drawn, 60, 40, false},         {as_drawn, 40, 60, std::nullopt},
                         {as_drawn, 40, 40, false},         {quarter_turn, 60, 40, std::nullopt},
                         {quarter_turn, 40, 60, true},      {quarter_turn, 40, 40, true},
                         {as_fits, 60, 40, false},          {as_fits, 40, 60, true},
                         {as_fits, 40, 40, false},          {as_fits, 60.01, 40, std::nullopt},
                         {as_fits, 40.01, 60, std::nullopt}};
  for (const Lying& one : table) {
    INFO("lie " << static_cast<int>(one.lie) << ", " << one.width << " by " << one.height);
    BedPlan plan = cut_board();
    plan.jig.lie = one.lie;
    if (one.turned) {
      for (const Pocket& pocket : placed(plan, one.width, one.height)) CHECK(pocket.turned == *one.turned);
    } else {
      CHECK(refused(plan, one.width, one.height).find("does not fit a pocket of 60 x 40 mm") != std::string::npos);
    }
  }
}

TEST_CASE("a blank that does not fit its pocket is refused with both sizes") {
  CHECK(refused(cut_board(), 101.6, 152.4) == "a blank of 101.6 x 152.4 mm does not fit a pocket of 60 x 40 mm");
}

TEST_CASE("pockets that overlap are refused, and those that touch are not") {
  BedPlan plan = cut_board();
  plan.jig.pitch_x = 60, plan.jig.pitch_y = 40;
  CHECK(placed(plan, 60, 40).size() == 6);
  plan.jig.pitch_x = 59.9;
  CHECK(refused(plan, 60, 40) == "pockets overlap");
  plan.jig.pitch_x = 60, plan.jig.pitch_y = 39.9;
  CHECK(refused(plan, 60, 40) == "pockets overlap");
}

TEST_CASE("a single pocket needs no pitch") {
  BedPlan plan = cut_board();
  plan.jig.columns = plan.jig.rows = 1;
  plan.jig.pitch_x = plan.jig.pitch_y = 0;
  CHECK(placed(plan, 60, 40).size() == 1);
}

TEST_CASE("a pocket off the bed is refused by its number, on every side, and one at the edge is not") {
  BedPlan plan = cut_board();
  plan.jig.first = {80, 90};  // the last pocket ends at (300, 200)
  CHECK(placed(plan, 60, 40).size() == 6);
  const std::pair<Point, const char*> table[] = {{{80.1, 90}, "pocket 3 is off the bed of 300 x 200 mm"},
                                                 {{80, 90.1}, "pocket 1 is off the bed of 300 x 200 mm"},
                                                 {{-0.1, 90}, "pocket 1 is off the bed of 300 x 200 mm"},
                                                 {{80, -0.1}, "pocket 4 is off the bed of 300 x 200 mm"}};
  for (const auto& [first, told] : table) {
    plan.jig.first = first;
    CHECK(refused(plan, 60, 40) == told);
  }
}

TEST_CASE("a filled bed holds as many blanks as go between its edges, in its middle") {
  // Three of 50 and two gaps of 10 between edges of 15: exactly 200.
  const auto exact = placed(filled_bed(200, 130, 10, 15, Jig::Lie::as_drawn), 50, 30);
  REQUIRE(exact.size() == 6);
  CHECK(exact[0].box == Bounds{15, 70, 65, 100});  // the first of the upper row
  CHECK(exact[5].box == Bounds{135, 30, 185, 60});
  const auto narrow = placed(filled_bed(199.9, 130, 10, 15, Jig::Lie::as_drawn), 50, 30);
  REQUIRE(narrow.size() == 4);
  CHECK(narrow[0].box.left == Approx((199.9 - 110) / 2));
}

TEST_CASE("pockets of a filled bed keep gap and edge whatever the sizes") {
  for (int step = 0; step < 400; ++step) {
    const double width = 20 + 0.37 * step, height = 150 - 0.31 * step;
    for (const Jig::Lie lie : {Jig::Lie::as_drawn, Jig::Lie::quarter_turn, Jig::Lie::as_fits}) {
      const BedPlan plan = filled_bed(600, 400, 7, 18, lie);
      const auto pockets = placed(plan, width, height);
      double least_gap = 1e300;
      for (const Pocket& a : pockets) {
        const bool within = a.box.left >= 18 - 1e-5 && a.box.right <= 582 + 1e-5 && a.box.bottom >= 18 - 1e-5 &&
                            a.box.top <= 382 + 1e-5;
        CHECK(within);
        for (const Pocket& b : pockets) {
          if (a.number >= b.number) continue;
          const double across = std::max(a.box.left - b.box.right, b.box.left - a.box.right);
          const double up = std::max(a.box.bottom - b.box.top, b.box.bottom - a.box.top);
          least_gap = std::min(least_gap, std::max(across, up));
        }
      }
      CHECK(least_gap >= 7 - 1e-9);
    }
  }
}

TEST_CASE("blanks on a filled bed are turned where more of them go on it, and else lie as drawn") {
  // 130 × 100 less the edges is 110 × 80: as drawn one of 60 × 50, turned two of 50 × 60.
  CHECK(placed(filled_bed(130, 100, 10, 10, Jig::Lie::as_drawn), 60, 50).size() == 1);
  const auto turned = placed(filled_bed(130, 100, 10, 10, Jig::Lie::as_fits), 60, 50);
  REQUIRE(turned.size() == 2);
  CHECK(turned[0].turned);
  CHECK(turned[0].box.width() == Approx(50));
  // Two either way.
  const auto even = placed(filled_bed(150, 150, 10, 10, Jig::Lie::as_fits), 60, 50);
  REQUIRE(even.size() == 4);
  CHECK_FALSE(even[0].turned);
}

TEST_CASE("a bed too small for one blank is refused with both sizes") {
  CHECK(refused(filled_bed(60, 60, 10, 10, Jig::Lie::as_fits), 50, 30) ==
        "no blank of 50 x 30 mm fits the bed of 60 x 60 mm");
  CHECK(refused(filled_bed(600, 15, 10, 10, Jig::Lie::as_fits), 50, 30) ==
        "no blank of 50 x 30 mm fits the bed of 600 x 15 mm");
}

TEST_CASE("a blank lies in the lower-left corner of its pocket and is never mirrored") {
  const Pocket straight{1, {40, 50, 100, 90}, false}, turned{2, {120, 50, 160, 110}, true};
  const Transform a = blank_to_bed(straight, 50, 30, Jig::Datum::lower_left),
                  b = blank_to_bed(turned, 50, 30, Jig::Datum::lower_left);
  CHECK(a(Point{0, 0}) == Point{40, 50});
  CHECK(a(Point{50, 30}) == Point{90, 80});
  CHECK(a.determinant() == 1);
  // A quarter turn counter-clockwise: the blank's lower edge runs up the right side.
  CHECK(b(Point{0, 30}) == Point{120, 50});
  CHECK(b(Point{0, 0}) == Point{150, 50});
  CHECK(b(Point{50, 0}) == Point{150, 100});
  CHECK(b.determinant() == 1);
}

}  // namespace ordinatio::pockets_test
