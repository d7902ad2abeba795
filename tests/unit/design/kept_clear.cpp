#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "design/design_file.h"
#include "design/layers.h"

namespace ordinatio::kept_clear_test {
using Catch::Contains;

namespace {

const std::string blank = "[blank]\nwidth = 100\nheight = 60\n[clear]\nmargin = 5\ngap = 2\n";  // six lines

std::string message_with(const std::string& text) {
  const auto design = parse_design(blank + text, "d.toml", "d");
  return design.ok() ? "" : describe(design.fault());
}

LaidDesign laid(const std::string& text) {
  auto design = parse_design(blank + text, "d.toml", "d");
  if (!design.ok()) FAIL(describe(design.fault()));
  auto result = laid_as_drawn(*design);
  if (!result.ok()) FAIL(describe(result.fault()));
  return *std::move(result);
}

Artwork engraved(const LaidDesign& design, std::vector<std::string> lines) {
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  const Result<Artwork> artwork = compose(design, {{"", std::move(lines), {}}, ""}, typesetter);
  if (!artwork.ok()) FAIL(describe(artwork.fault()));
  return *artwork;
}

double distance_to_segment(Point p, Point a, Point b) {
  const Point along = b - a;
  const double t = std::clamp(dot(p - a, along) / dot(along, along), 0.0, 1.0);
  return length(p - (a + t * along));
}

/// From a point outside the polygon to it.
double distance_to(const Polygon& polygon, Point p) {
  double least = 1e300;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    least = std::min(least, distance_to_segment(p, polygon[i], polygon[(i + 1) % polygon.size()]));
  }
  return least;
}

double depth_in_any(const std::vector<ConvexHull>& pieces, Point p) {
  double depth = -1e300;
  for (const ConvexHull& piece : pieces) depth = std::max(depth, -distance_outside(region_of(piece.vertices), p));
  return depth;
}

Path rectangle_path(const Bounds& box) {
  Path path;
  path.add_rectangle(box);
  return path;
}

}  // namespace

TEST_CASE("a thing kept clear is a box, a circle or an outline, with 2 mm around it unless it says otherwise") {
  const LaidDesign design = laid(
      "[text]\n[[keep_clear]]\nname = \"stamp\"\nbox = [70, 10, 20, 10]\n"
      "[[keep_clear]]\ncircle = [20, 40, 5]\nmargin = 0\n"
      "[[keep_clear]]\noutline = [[0, 0], [0, 20], [20, 0]]\nmargin = 1.5\n");
  REQUIRE(design.kept_clear.size() == 3);
  CHECK(design.kept_clear[0].name == "stamp");
  CHECK(design.kept_clear[0].margin == 2);
  CHECK(area_of(design.kept_clear[0].corners) == 200);
  CHECK(design.kept_clear[1].corners == Polygon{{20, 40}});
  CHECK(design.kept_clear[1].radius == 5);
  CHECK(area_of(design.kept_clear[2].corners) == 200);  // turned the right way round
  CHECK(design.clear_area.obstacles.size() == 3);
  CHECK(design.rooms[0].area.area.obstacles.size() == 3);
}

TEST_CASE("a text's box that a thing does not reach has nothing to flow around") {
  const LaidDesign design = laid("[text]\nbox = [5, 5, 40, 50]\n[[keep_clear]]\nbox = [70, 10, 20, 10]\n");
  CHECK(design.clear_area.obstacles.size() == 1);
  CHECK(design.rooms[0].area.area.obstacles.empty());
}

TEST_CASE("what is wrong with a thing kept clear is told with its place") {
  const std::string keep = "[text]\n[[keep_clear]]\n";
  CHECK_THAT(message_with(keep + "name = \"x\"\n"), Contains("d.toml:8:1: keep_clear.box is missing"));
  CHECK_THAT(message_with(keep + "box = [1, 1, 2, 2]\ncircle = [9, 9, 1]\n"),
             Contains("d.toml:10:10: keep_clear.circle is one too many"));
  CHECK_THAT(message_with(keep + "box = [1, 1, 2, 2]\noutline = [[0, 0], [1, 0], [0, 1]]\n"),
             Contains("d.toml:10:11: keep_clear.outline is one too many"));
  CHECK_THAT(message_with(keep + "circle = [9, 9, 0]\n"), Contains("its radius is not more than 0"));
  CHECK_THAT(message_with(keep + "circle = [9, 9]\n"), Contains("[x, y, radius]"));
  CHECK_THAT(message_with(keep + "outline = [[9, 9], [20, 20], [15, 15]]\n"),
             Contains("d.toml:9:11: keep_clear.outline has no area"));
  CHECK_THAT(message_with(keep + "outline = [[10, 10], [30, 30], [30, 10], [10, 20]]\n"),
             Contains("keep_clear.outline crosses itself"));
  CHECK_THAT(message_with(keep + "margin = -1\nbox = [1, 1, 2, 2]\n"), Contains("keep_clear.margin must be from 0"));
  CHECK_THAT(message_with(keep + "box = [110, 10, 20, 20]\n"),
             Contains("d.toml:9:7: keep_clear.box lies beside the blank"));
  CHECK_THAT(message_with(keep + "shape = 1\nbox = [1, 1, 2, 2]\n"), Contains("shape"));
}

TEST_CASE("a border or a logo that would run over a thing kept clear is told, with what is in its way") {
  const std::string stamp = "[[keep_clear]]\nname = \"stamp\"\nbox = [6, 20, 10, 10]\n";
  CHECK_THAT(message_with("[text]\n[border]\n" + stamp),
             Contains("d.toml:8:1: border.distance leads the border over what is kept clear: \"stamp\", with its "
                      "margin, reaches from 4 to 18 mm across and from 18 to 32 mm up"));
  CHECK_THAT(message_with("[text]\n[border]\ndistance = 7\noperation = \"score\"\n" + stamp),
             Contains("d.toml:9:12: border.distance leads the border over"));
  // Inside the border, and outside it: both leave it alone.
  CHECK(message_with("[text]\n[border]\n[[keep_clear]]\nbox = [20, 20, 10, 10]\n").empty());
  CHECK(message_with("[text]\n[border]\ndistance = 7\noperation = \"score\"\n[[keep_clear]]\nbox = [0, 20, 4, 10]\n")
            .empty());
  CHECK_THAT(message_with("[text]\nbox = [50, 10, 40, 40]\n[logo]\nfile = \"a.svg\"\nbox = [17, 20, 10, 10]\n" + stamp),
             Contains("d.toml:11:7: logo.box overlaps what is kept clear"));
  CHECK(message_with("[text]\nbox = [50, 10, 40, 40]\n[logo]\nfile = \"a.svg\"\nbox = [18, 20, 10, 10]\n" + stamp)
            .empty());
}

TEST_CASE("a text that things kept clear leave nothing of is told in the design") {
  CHECK_THAT(message_with("[text]\nbox = [20, 20, 30, 20]\n[[keep_clear]]\nbox = [18, 18, 34, 24]\n"),
             Contains("d.toml:8:7: text.box leaves no room for the text: what is kept clear takes all of it"));
}

TEST_CASE("a text that finds no place among things kept clear is held and says so") {
  LaidDesign design = laid("[text]\n[[keep_clear]]\nbox = [5, 5, 90, 25]\nmargin = 0\n");
  design.kept_clear.push_back({"", {{5, 30}, {95, 30}, {95, 55}, {5, 55}}, 0, 0});
  const auto crowded = laid_as_drawn(design);
  REQUIRE(crowded.ok());
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  const Result<Artwork> artwork = compose(*crowded, {{"", {"HELLO"}, {}}, ""}, typesetter);
  REQUIRE_FALSE(artwork.ok());
  CHECK(artwork.fault().what == "there is no room for the text");
  CHECK_FALSE(artwork.fault().mend.empty());
}

TEST_CASE("margins are true distances: never less, and hardly more") {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> place(-30, 60);
  const KeptClear things[] = {{"", {{0, 0}, {30, 0}, {30, 20}, {0, 20}}, 0, 3},
                              {"", {{0, 0}, {30, 0}, {30, 20}, {20, 5}, {10, 20}, {0, 20}}, 0, 4},
                              {"", {{10, 10}}, 7, 2.5},
                              {"", {{10, 10}}, 0.2, 0}};
  for (const KeptClear& thing : things) {
    const std::vector<ConvexHull> pieces = obstacles_of(thing);
    for (int i = 0; i < 20'000; ++i) {
      const Point p{place(random), place(random)};
      const double away =
          (thing.corners.size() == 1 ? length(p - thing.corners[0]) : distance_to(thing.corners, p)) - thing.radius;
      if (away < thing.margin) REQUIRE(depth_in_any(pieces, p) >= -1e-9);
      const bool inside = thing.corners.size() > 1 && depth_in_any(convex_pieces({thing.corners}), p) >= 0;
      if (!inside && away > thing.margin + kept_clear_sagitta + 1e-9) REQUIRE(depth_in_any(pieces, p) < 0);
    }
  }
}

TEST_CASE("level and upright sides are kept clear of to the last digit") {
  Bounds box;
  const auto obstacles = obstacles_of({"", {{10, 20}, {40, 20}, {40, 50}, {10, 50}}, 0, 2});
  for (const Point p : obstacles.at(0).vertices) box.add(p);
  CHECK(box.left == Approx(8).epsilon(1e-12));
  CHECK(box.top == Approx(52).epsilon(1e-12));
}

TEST_CASE("ink flows around a stamp and keeps its margin") {
  const LaidDesign design = laid("[text]\ncap_height = { min = 1, max = 30 }\n[[keep_clear]]\ncircle = [80, 15, 10]\n");
  const Artwork artwork = engraved(design, {"Old Mill House", "by the water", "1874"});
  double nearest = 1e300;
  for (const Polyline& line : flatten(artwork.layers.at(0).path, 1e-4)) {
    for (const Point p : line.points) nearest = std::min(nearest, length(p - Point{80, 15}));
  }
  CHECK(nearest >= 12);
  CHECK(artwork.kept_clear.size() == 1);
  CHECK(artwork.clear_area.obstacles.size() == 1);
}

TEST_CASE("a wider margin never makes the lettering larger") {
  double last = 1e300;
  for (const char* margin : {"0", "1", "3", "6", "12"}) {
    const LaidDesign design = laid(
        "[text]\noff_axis_gain = -1\ncap_height = { min = 0.1, max = 30 }\n[[keep_clear]]\n"
        "outline = [[60, 40], [90, 40], [80, 30], [88, 20], [70, 26]]\nmargin = " +
        std::string(margin) + "\n");
    const double cap_height = engraved(design, {"Bramble Lodge", "please ring twice"}).cap_height;
    CHECK(cap_height <= last * (1 + 1e-9));
    last = cap_height;
  }
  CHECK(last < 8);
}

TEST_CASE("ink in an obstacle is seen where it crosses it, lies in it and covers it") {
  const ClearArea area{region_of(Polygon{{0, 0}, {100, 0}, {100, 60}, {0, 60}}),
                       {{{{40, 20}, {60, 20}, {60, 30}, {40, 30}}}}};
  const auto distance = [&](const Bounds& box, bool filled) {
    return distance_outside(area, rectangle_path(box), filled);
  };
  CHECK(distance({10, 10, 30, 50}, true) <= 0);
  CHECK(distance({10, 10, 40, 50}, true) == Approx(0).margin(1e-12));
  CHECK(distance({10, 10, 41, 50}, true) == Approx(1));
  CHECK(distance({45, 5, 46, 55}, true) == Approx(5));   // across
  CHECK(distance({44, 22, 46, 23}, true) == Approx(3));  // inside
  CHECK(distance({30, 10, 70, 50}, true) == Approx(5));  // all over
  CHECK(distance({30, 10, 70, 50}, false) <= 0);         // around
  Path ring = rectangle_path({30, 10, 70, 50});
  ring.append(reversed(rectangle_path({35, 15, 65, 45})));
  CHECK(distance_outside(area, ring, true) <= 0);
  CHECK(distance_outside(area, rectangle_path({90, 10, 103, 50}), true) == Approx(3));
}

}  // namespace ordinatio::kept_clear_test
