#include "machine/path_order.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "geometry/contour_order.h"
#include "geometry/contour_start.h"
#include "machine/nesting.h"
#include "travel.h"

namespace ordinatio::path_order_test {

namespace {

Path box(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

Path line(Point from, Point to) {
  Path path;
  path.move_to(from);
  path.line_to(to);
  return path;
}

std::vector<Path> ordered(std::vector<Path> contours, bool inner_first = false) {
  std::vector<FollowedPiece> pieces{{std::move(contours), inner_first}};
  order_contours(pieces);
  return pieces.front().contours;
}

/// Two lines and a box at their ends.
std::vector<Path> lines_and_box(double x) {
  return {line({x + 40, 0}, {x + 5, 0}), box(x + 45, 0, x + 50, 5), line({x + 5, 10}, {x + 40, 10})};
}

/// The least way through three pieces of lines and a box, by trying all orders, starts and directions, piece after piece.
double least_of_three_pieces() {
  struct Way {
    Point from, to;
    double length;
  };
  std::vector<Way> ways;
  std::vector<std::size_t> order{0, 1, 2};
  const std::vector<Path> contours = lines_and_box(0);
  do {
    for (int choice = 0; choice < 16; ++choice) {
      std::vector<Path> way;
      for (const std::size_t i : order) {
        way.push_back(started_at(contours[i], static_cast<std::size_t>(i == 1   ? choice / 4
                                                                       : i == 0 ? choice % 2
                                                                                : choice / 2 % 2)));
      }
      const Path& last = way.back();
      ways.push_back({way.front().points().front(), is_closed(last) ? last.points().front() : last.points().back(),
                      travel_between(way)});
    }
  } while (std::ranges::next_permutation(order).found);
  double least = 1e300;
  for (const Way& one : ways) {
    for (const Way& two : ways) {
      const double so_far = one.length + length(two.from + Point{100, 0} - one.to) + two.length;
      for (const Way& three : ways)
        least = std::min(least, so_far + length(three.from + Point{100, 0} - two.to) + three.length);
    }
  }
  return least;
}

/// Closed and open contours by lot: `most` of them exactly ordered, more by the search.
std::vector<Path> contours_by_lot(int count, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(0, 200), side(1, 12);
  std::vector<Path> contours;
  for (int i = 0; i < count; ++i) {
    const Point at{any(random), any(random)};
    contours.push_back(i % 3 == 0 ? line(at, at + Point{side(random), -side(random)})
                                  : box(at.x, at.y, at.x + side(random), at.y + side(random)));
  }
  return contours;
}

}  // namespace

TEST_CASE("a closed contour begins where it is near, an open one is reversed") {
  // From the left line's far end to the box's near corner, on to the near end of the right line.
  const std::vector<Path> way = ordered({line({100, 0}, {40, 0}), box(20, -5, 30, 0), line({0, 0}, {12, 0})});
  REQUIRE(way.size() == 3);
  CHECK(travel_between(way) == Approx(8 + 20));
  CHECK((way[0] == line({0, 0}, {12, 0}) || way[0] == line({100, 0}, {40, 0})));
  CHECK(way[1].points()[0] == Point{20, 0});
}

TEST_CASE("a contour that is alone begins as it was drawn") {
  const Path alone = started_at(box(3, 4, 20, 30), 2);
  CHECK(ordered({alone}) == std::vector<Path>{alone});
  CHECK(ordered({}).empty());
}

TEST_CASE("the order is the same in whatever order, from whatever start and direction the contours come") {
  for (const int count : {5, 120}) {
    const std::vector<Path> contours = contours_by_lot(count, 11);
    const std::vector<Path> way = ordered(contours);
    CHECK(ordered(way) == way);
    std::mt19937 random(5);
    std::vector<Path> mixed;
    for (const Path& contour : contours) {
      const std::size_t starts = starts_of(contour).size();
      mixed.push_back(started_at(contour, random() % starts));
    }
    std::ranges::shuffle(mixed, random);
    CHECK(ordered(mixed) == way);
  }
}

TEST_CASE("contours keep their shape and the way round, curves too") {
  Path drop;
  drop.move_to({10, 0});
  drop.cubic_to({14, 6}, {6, 6}, {10, 0.5});
  drop.quad_to({9, 0}, {9.5, -0.5});
  drop.close();
  const std::vector<Path> way = ordered({drop, line({11, 0}, {60, 0}), line({-40, -0.5}, {9.4, -0.5})});
  const auto turned = std::ranges::find_if(way, [](const Path& path) { return is_closed(path); });
  REQUIRE(turned != way.end());
  CHECK(area_of(*turned) == Approx(area_of(drop)).epsilon(1e-12));
  CHECK(bounds_of(*turned) == bounds_of(drop));
}

TEST_CASE("what lies in a contour is cut before it, however far it is out of the way") {
  // A plate at the start of the way, with a hole at its far end, and a row of rings, the larger ones first.
  std::vector<Path> contours{box(0, 0, 100, 50), box(90, 40, 95, 45), box(91, 41, 93, 43)};
  for (int i = 0; i < 60; ++i) {
    const double x = 120 + 20 * (i % 10), y = 20 * (i / 10);
    contours.push_back(box(x, y, x + 12, y + 12));
    contours.push_back(box(x + 3, y + 3, x + 8, y + 8));
  }
  for (const std::size_t count : {std::size_t{3}, contours.size()}) {
    const std::vector<Path> some(contours.begin(), contours.begin() + static_cast<std::ptrdiff_t>(count));
    const std::vector<Path> way = ordered(some, true);
    std::size_t around = 0;
    for (std::size_t later = 0; later < way.size(); ++later) {
      for (std::size_t earlier = 0; earlier < later; ++earlier) {
        const Bounds inner = bounds_of(way[later]), outer = bounds_of(way[earlier]);
        CHECK_FALSE((outer.holds({inner.left, inner.bottom}) && outer.holds({inner.right, inner.top})));
        around += inner.holds({outer.left, outer.bottom}) && inner.holds({outer.right, outer.top}) ? 1 : 0;
      }
    }
    CHECK(around == (count == 3 ? 3 : 63));
  }
}

TEST_CASE("a bay is not around what lies in it, nor is an open line") {
  Path bay;
  bay.move_to({0, 0});
  for (const Point p : {Point{20, 0}, {20, 2}, {2, 2}, {2, 20}, {0, 20}}) bay.line_to(p);
  bay.close();
  Path open;
  open.move_to({0, 0});
  for (const Point p : {Point{20, 0}, {20, 20}, {0, 20}}) open.line_to(p);
  CHECK(nesting_of({bay, box(5, 5, 10, 10)})->empty());
  CHECK(nesting_of({open, box(5, 5, 10, 10)})->empty());
  CHECK(nesting_of({box(0, 0, 20, 20), box(5, 5, 10, 10)}) == Precedence{{1, 0}});
}

TEST_CASE("rings in rings without end are cut from the inside, and cost little") {
  std::vector<Path> rings;
  for (int i = 0; i < 400; ++i) rings.push_back(box(-1.0 - i, -1.0 - i, 1.0 + i, 1.0 + i));
  CHECK_FALSE(nesting_of(rings).has_value());
  const std::vector<Path> way = ordered(rings, true);
  for (std::size_t i = 1; i < way.size(); ++i) CHECK(bounds_of(way[i - 1]).width() < bounds_of(way[i]).width());
}

TEST_CASE("pieces are followed one by one, each from where the one before it ends") {
  std::vector<FollowedPiece> pieces;
  for (const double x : {0.0, 100.0, 200.0}) {
    pieces.push_back(
        {{line({x + 40, 0}, {x + 5, 0}), box(x + 45, 0, x + 50, 5), line({x + 5, 10}, {x + 40, 10})}, false});
  }
  order_contours(pieces);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    REQUIRE(pieces[i].contours.size() == 3);
    for (const Path& contour : pieces[i].contours) {
      CHECK(bounds_of(contour).left >= 100.0 * static_cast<double>(i));
      CHECK(bounds_of(contour).right <= 100.0 * static_cast<double>(i) + 60);
    }
  }
  std::vector<Path> all;
  for (const FollowedPiece& piece : pieces) all.insert(all.end(), piece.contours.begin(), piece.contours.end());
  CHECK(travel_between(all) <= 1.05 * least_of_three_pieces());
}

}  // namespace ordinatio::path_order_test
