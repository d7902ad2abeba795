#include <catch2/catch.hpp>
#include <cmath>

#include "fit/fit.h"

using namespace ordinatio;

namespace {

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  double cap_height = typesetter.metrics("serif")->cap_height;

  Block set(const std::vector<std::string>& lines, BlockStyle style = {}) {
    std::vector<ShapedLine> shaped;
    for (const std::string& line : lines) {
      auto result = typesetter.shape(line, {{"serif"}, "en", told_language(lines)});
      REQUIRE(result);
      shaped.push_back(std::move(*result));
    }
    style.cap_height = cap_height;
    return build_block(typesetter, std::move(shaped), style);
  }
};

}  // namespace

TEST_CASE("lines are aligned by their ink") {
  Bench bench;
  const auto edges = [](const Block& block, std::size_t i) { return block.lines[i].ink.shifted(block.origins[i]); };
  BlockStyle style;
  style.alignment = Alignment::left;
  const Block left = bench.set({"Water", "jumps"}, style);
  CHECK(edges(left, 0).left == Approx(edges(left, 1).left).margin(1e-12));
  style.alignment = Alignment::right;
  const Block right = bench.set({"Water", "jumps"}, style);
  CHECK(edges(right, 0).right == Approx(edges(right, 1).right).margin(1e-12));
  style.alignment = Alignment::centre;
  const Block centre = bench.set({"Water", "jumps"}, style);
  CHECK(edges(centre, 0).centre().x == Approx(edges(centre, 1).centre().x).margin(1e-12));
}

TEST_CASE("the hull is that of the ink, descenders and accents included") {
  Bench bench;
  const Block block = bench.set({"Éy", "quay"});
  CHECK(support_of(block, {-1, 0}) == Approx(-block.ink.left).margin(1e-9));
  CHECK(support_of(block, {1, 0}) == Approx(block.ink.right).margin(1e-9));
  CHECK(support_of(block, {0, 1}) == Approx(block.ink.top).margin(1e-9));
  CHECK(support_of(block, {0, -1}) == Approx(-block.ink.bottom).margin(1e-9));
  // In any other direction it is that of all the outlines' points, short by the hulls' tolerance at most.
  std::vector<Point> points;
  for (std::size_t i = 0; i < block.lines.size(); ++i) {
    for (const PlacedGlyph& glyph : block.lines[i].glyphs) {
      const Path& path = bench.typesetter.outline(glyph.face, glyph.glyph).path;
      const Path placed = transformed(path, shift_by(block.origins[i] + glyph.origin));
      for (const Polyline& line : flatten(placed, 1e-7))
        points.insert(points.end(), line.points.begin(), line.points.end());
    }
  }
  const ConvexHull hull = hull_of(points);
  for (double angle = 0; angle < 6.3; angle += 0.01) {
    const Point normal{std::cos(angle), std::sin(angle)};
    REQUIRE(support_of(block, normal) == Approx(support_of(hull, normal)).margin(1.1 * hull_tolerance));
  }
  CHECK(block.ink.top > bench.cap_height * 1.1);
}

TEST_CASE("accents and descenders do not shift the middle of a line") {
  Bench bench;
  CHECK(bench.set({"MILL"}).anchor.y == Approx(bench.cap_height / 2).margin(1e-9));
  CHECK(bench.set({"ÉPÉE"}).anchor.y == Approx(bench.cap_height / 2).margin(1e-9));
  CHECK(bench.set({"Mgypq"}).anchor.y == Approx(bench.cap_height / 2).margin(1e-9));
  // Without capitals or ascenders the eye takes the x-height's band.
  CHECK(bench.set({"xaem"}).anchor.y < bench.cap_height * 0.4);
}

TEST_CASE("lines keep the design's leading, and more where ink would meet") {
  Bench bench;
  BlockStyle style;
  style.leading = 1.3;
  const Block plain = bench.set({"one", "two"}, style);
  CHECK(plain.origins[0].y - plain.origins[1].y == Approx(1.3));
  style.leading = 0.7;
  const Block tight = bench.set({"gypq", "ÂÊÎ"}, style);
  const double gap =
      tight.lines[0].ink.shifted(tight.origins[0]).bottom - tight.lines[1].ink.shifted(tight.origins[1]).top;
  CHECK(gap == Approx(style.least_gap).margin(1e-12));
}

TEST_CASE("an empty line is a space between lines") {
  Bench bench;
  const Block block = bench.set({"one", "", "two"});
  CHECK(block.origins[0].y - block.origins[2].y == Approx(2.5));
}
