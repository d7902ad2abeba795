#include <catch2/catch.hpp>
#include <cmath>

#include "block_hulls.h"
#include "fit/fit.h"

namespace ordinatio::block_test {

namespace {

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  double cap_height = typesetter.metrics({{"serif"}, "", ""})->cap_height;

  Block set(const std::vector<std::string>& lines, const BlockStyle& style = {}, std::vector<double> sizes = {}) {
    sizes.resize(lines.size(), 1);
    std::vector<BlockLine> shaped;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      auto result = typesetter.shape(lines[i], {{"serif"}, "en", told_language(lines)});
      REQUIRE(result.ok());
      shaped.push_back({std::move(*result), sizes[i], cap_height});
    }
    return build_block(typesetter, std::move(shaped), style);
  }
};

/// Where a line's ink lies in its block.
Bounds ink_of(const Block& block, std::size_t i) {
  const Bounds& ink = block.lines[i].shaped.ink;
  const double size = block.lines[i].size;
  return Bounds{size * ink.left, size * ink.bottom, size * ink.right, size * ink.top}.shifted(block.origins[i]);
}

}  // namespace

TEST_CASE("lines are aligned by their ink") {
  Bench bench;
  BlockStyle style;
  style.alignment = Alignment::left;
  const Block left = bench.set({"Water", "jumps"}, style);
  CHECK(ink_of(left, 0).left == Approx(ink_of(left, 1).left).margin(1e-12));
  style.alignment = Alignment::right;
  const Block right = bench.set({"Water", "jumps"}, style);
  CHECK(ink_of(right, 0).right == Approx(ink_of(right, 1).right).margin(1e-12));
  style.alignment = Alignment::centre;
  const Block centre = bench.set({"Water", "jumps"}, style);
  CHECK(ink_of(centre, 0).centre().x == Approx(ink_of(centre, 1).centre().x).margin(1e-12));
}

TEST_CASE("the hull is that of the ink, descenders and accents included") {
  Bench bench;
  const Block block = bench.set({"Éy", "quay"});
  CHECK(reach_of(block, bench.typesetter, {-1, 0}) == Approx(-block.ink.left).margin(1e-9));
  CHECK(reach_of(block, bench.typesetter, {1, 0}) == Approx(block.ink.right).margin(1e-9));
  CHECK(reach_of(block, bench.typesetter, {0, 1}) == Approx(block.ink.top).margin(1e-9));
  CHECK(reach_of(block, bench.typesetter, {0, -1}) == Approx(-block.ink.bottom).margin(1e-9));
  // In any other direction it is that of all the outlines' points, short by the hulls' tolerance at most.
  std::vector<Point> points;
  for (std::size_t i = 0; i < block.lines.size(); ++i) {
    for (const PlacedGlyph& glyph : block.lines[i].shaped.glyphs) {
      const Path& path = bench.typesetter.outline(glyph.face, glyph.glyph).path;
      const Path placed = transformed(path, shift_by(block.origins[i] + glyph.origin));
      for (const Polyline& line : flatten(placed, 1e-7))
        points.insert(points.end(), line.points.begin(), line.points.end());
    }
  }
  const ConvexHull hull = hull_of(points);
  for (double angle = 0; angle < 6.3; angle += 0.01) {
    const Point normal{std::cos(angle), std::sin(angle)};
    REQUIRE(reach_of(block, bench.typesetter, normal) == Approx(support_of(hull, normal)).margin(1.1 * hull_tolerance));
  }
  CHECK(block.ink.top > bench.cap_height * 1.1);
}

TEST_CASE("lines keep the design's leading, and more where ink would meet") {
  Bench bench;
  BlockStyle style;
  style.leading = 1.3;
  const Block plain = bench.set({"one", "two"}, style);
  CHECK(plain.origins[0].y - plain.origins[1].y == Approx(1.3));
  style.leading = 0.7;
  const Block tight = bench.set({"gypq", "ÂÊÎ"}, style);
  const double gap = ink_of(tight, 0).bottom - ink_of(tight, 1).top;
  CHECK(gap == Approx(style.least_gap).margin(1e-12));
}

TEST_CASE("an empty line is a space between lines") {
  Bench bench;
  const Block block = bench.set({"one", "", "two"});
  CHECK(block.origins[0].y - block.origins[2].y == Approx(2.5));
}

TEST_CASE("lines of unlike sizes keep their leading, and their ink apart") {
  Bench bench;
  BlockStyle style;
  style.leading = 1.2;
  const Block block = bench.set({"one", "two"}, style, {2, 1});
  // A quarter of the leading belongs to the line above, three quarters to the line below.
  CHECK(block.origins[0].y - block.origins[1].y == Approx(1.2 * (0.25 * 2 + 0.75 * 1)));
  CHECK(ink_of(block, 0).width() == Approx(2 * block.lines[0].shaped.ink.width()));
  style.leading = 0.5;
  const Block tight = bench.set({"gypq", "ÂÊÎ"}, style, {2, 1});
  CHECK(ink_of(tight, 0).bottom - ink_of(tight, 1).top == Approx(1.5 * style.least_gap));
  CHECK(reach_of(tight, bench.typesetter, {0, -1}) == Approx(-tight.ink.bottom).margin(1e-9));
  CHECK(reach_of(tight, bench.typesetter, {1, 0}) == Approx(tight.ink.right).margin(1e-9));
}

TEST_CASE("a long descender does not reach through an empty line into the next one") {
  Bench bench;
  BlockStyle style;
  style.leading = 0.2;
  const Block block = bench.set({"gypq", "", "ÂÊÎ"}, style);
  CHECK(ink_of(block, 0).bottom - ink_of(block, 2).top == Approx(style.least_gap).margin(1e-12));
}

TEST_CASE("lines are set to the same width, as far as the ratio lets them") {
  Bench bench;
  BlockStyle style;
  style.sizes = LineSizes::same_width;
  style.width_ratio = 10;
  const Block all = bench.set({"Millwheel and leat", "Miller", "1874"}, style);
  for (std::size_t i = 1; i < 3; ++i) CHECK(ink_of(all, i).width() == Approx(ink_of(all, 0).width()).epsilon(1e-12));
  CHECK(all.lines[0].size == 1);
  style.width_ratio = 1.5;
  const Block some = bench.set({"Millwheel and leat", "Miller", "1874"}, style);
  CHECK(some.lines[1].size == 1.5);
  CHECK(some.lines[2].size == 1.5);
}

TEST_CASE("punctuation hangs over the block's edge and shifts nothing") {
  Bench bench;
  BlockStyle style;
  style.hang_punctuation = true;
  const Block plain = bench.set({"Water", "Water"}, style), hung = bench.set({"Water", "“Water,”"}, style);
  CHECK(plain.anchor.x == 0);
  CHECK(hung.anchor.x == 0);
  style.hang_punctuation = false;
  const Block not_hung = bench.set({"Water", "“Water,”"}, style);
  // Both quotes are as wide, and hang by half; the comma stands inside the closing one.
  CHECK(ink_of(hung, 1).width() == Approx(ink_of(not_hung, 1).width()));
  style.hang_punctuation = true, style.alignment = Alignment::left;
  const Block left = bench.set({"Water", "“Water”"}, style);
  const auto quote = left.lines[1].shaped.glyphs.front();
  const double width = bench.typesetter.outline(quote.face, quote.glyph).ink.width();
  CHECK(ink_of(left, 1).left == Approx(ink_of(left, 0).left - width / 2));
  style.alignment = Alignment::right;
  const Block right = bench.set({"Water", "Water."}, style);
  const auto point = right.lines[1].shaped.glyphs.back();
  CHECK(ink_of(right, 1).right ==
        Approx(ink_of(right, 0).right + 0.7 * bench.typesetter.outline(point.face, point.glyph).ink.width()));
  CHECK(reach_of(right, bench.typesetter, {1, 0}) ==
        Approx(ink_of(right, 1).right).margin(1e-9));  // hung ink is still kept inside
}

}  // namespace ordinatio::block_test
