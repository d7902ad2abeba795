#include "fit/plan_bounds.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "block_hulls.h"

namespace ordinatio::plan_bounds_test {

namespace {

/// A blank of n corners about (50, 40), turned, half as tall as wide or the other way round.
SettingArea area_of_corners(int n, double turn, double width, double height) {
  std::vector<Point> points;
  for (int i = 0; i < n; ++i) {
    const double angle = turn + 2 * std::numbers::pi * i / n;
    points.push_back({50 + width * std::cos(angle), 40 + height * std::sin(angle)});
  }
  SettingArea area{{region_of(hull_of(points).vertices), {}}, {}, {50, 40}, false};
  area.widths = widths_of(area.area.region);
  return area;
}

/// An edge beside the area, towards one of four sides: it takes up to a third of the area's reach that way, or nothing.
HalfPlane neighbour(std::mt19937& random, const SettingArea& area) {
  const Point normals[] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}};
  const Point normal = normals[random() % 4];
  double reach = -1e300;
  for (const Point p : polygon_of(area.area.region)) reach = std::max(reach, dot(normal, p));
  const double from_middle = reach - dot(normal, area.target);
  return {normal, reach - from_middle * (static_cast<double>(random() % 40) - 6) / 100};
}

struct Text {
  std::vector<StyledLine> lines;
  SettingRules rules;
};

Text random_text(std::mt19937& random, const LineStyle& style) {
  static const char* words[] = {"Ada", "of",  "Quernby", "the",  "millwright’s", "Ĺúçká", "pygmy",
                                "I",   "and", "1874",    "ÉPÉE", "ہمارے",        "גל"};
  Text text;
  text.rules.styles = {style, style};
  text.rules.styles[1].size = 0.6;
  text.rules.breaks = LineBreaks::free;
  text.rules.max_cap_height = 60;
  text.rules.off_axis_gain = -1;
  text.rules.block.leading = random() % 3 == 0 ? 0.8 : 1.25;
  if (random() % 2 == 0) text.rules.block.cap_leading = {1.6, 1.45};
  text.rules.block.alignment = static_cast<Alignment>(random() % 3);
  text.rules.block.sizes = random() % 4 == 0 ? LineSizes::same_width : LineSizes::as_styled;
  for (int line = 0; line < 2; ++line) {
    std::string together;
    for (unsigned word = 0; word < 1 + random() % 4; ++word) {
      together += (together.empty() ? "" : " ") + std::string(words[random() % std::size(words)]);
    }
    text.lines.push_back({together, random() % 2});
  }
  return text;
}

}  // namespace

TEST_CASE("no true fit of any plan exceeds the bounds that plans are sorted by") {
  const unsigned seed = 1925;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const FontLibrary library{"none"};
  Typesetter typesetter{library};
  const TextStyle face{{"serif"}, "en", ""};
  const FaceHeights metrics = *typesetter.metrics(face);
  std::size_t plans = 0, tight = 0, beside = 0, tight_beside = 0;
  for (int round = 0; round < 120; ++round) {
    const Text text = random_text(random, {face, 1, metrics.cap_height, metrics.x_height});
    // Every third blank stands on its point: its lines are as wide as they are at their tops.
    const bool on_its_point = round % 3 == 0;
    SettingArea area =
        area_of_corners(on_its_point ? 3 : 3 + static_cast<int>(random() % 10),
                        on_its_point ? std::numbers::pi / 6 : static_cast<double>(random() % 7),
                        20 + static_cast<double>(random() % 40), 15 + static_cast<double>(random() % 30));
    for (unsigned i = 0; i < random() % 3; ++i) area.neighbours.push_back(neighbour(random, area));
    const TextPassages list = passages_of(text.lines, text.rules, typesetter);
    const std::size_t count = list.pieces.size();
    LineCandidates lines(typesetter, list, text.rules);
    REQUIRE_FALSE(lines.shape(text.lines));
    lines.lie_in(area.area.region);
    PlanBounds bounds(lines, list, text.rules, area);
    for (std::size_t set = 0; set < std::size_t{1} << (count - 1); ++set) {
      LineEnds ends;
      std::vector<LineMeasure> measures;
      std::vector<BlockLine> block_lines;
      std::size_t first = 0;
      bool legal = true;
      for (std::size_t i = 0; i < count; ++i) {
        const bool last_of_passage = i + 1 == count || list.pieces[i + 1].passage != list.pieces[i].passage;
        const bool ends_here = i + 1 == count || ((set >> i) & 1) != 0;
        legal = legal && (ends_here || !last_of_passage);
        if (!ends_here || !legal) continue;
        ends.push_back(i + 1);
        const LineStyle& style = lines.style_of(first);
        block_lines.push_back({lines.line(first, i + 1).shaped, style.size, style.cap_height, style.x_height,
                               list.passages[list.pieces[first].passage].style});
        first = i + 1;
      }
      if (!legal) continue;
      const Block block = build_block(typesetter, block_lines, text.rules.block);
      double cap = 0, x_height = 0;
      for (const BlockLine& line : block.lines) {
        cap = std::max(cap, line.size * line.cap_height);
        x_height = std::max(x_height, line.size * line.x_height);
      }
      std::vector<FitRow> rows =
          fit_rows([&](Point normal) { return reach_of(block, typesetter, normal); }, area.area.region);
      for (const HalfPlane& edge : area.neighbours)
        rows.push_back({reach_of(block, typesetter, edge.normal) + x_height, edge.normal, edge.offset});
      const auto fit =
          largest_copy(std::move(rows), block.ink, {block.anchor, area.target, text.rules.max_cap_height / cap, -1});
      REQUIRE(fit);
      ++plans;
      beside += area.neighbours.empty() ? 0 : 1;
      INFO("round " << round << ", " << ends.size() << " lines, size " << fit->size);
      const double least = fit->size * (1 - 1e-9);
      REQUIRE(bounds.largest() >= least);
      REQUIRE(bounds.box_size(block.ink) >= least);
      const std::size_t last_begin = ends.size() == 1 ? 0 : ends[ends.size() - 2];
      REQUIRE(bounds.height_size(ends.size(), ends[0], last_begin) >= least);
      const std::vector<double> room = bounds.room(ends.size(), least);
      REQUIRE(room.size() == ends.size());
      first = 0;
      double closest = 1e300;
      for (std::size_t row = 0; row < ends.size(); ++row) {
        REQUIRE(lines.width(first, ends[row], 1e300) <= room[row] * (1 + 1e-9));
        const double line_size = bounds.line_size(first, ends[row], row, ends.size(), ends[0]);
        REQUIRE(line_size >= least);
        closest = std::min(closest, line_size);
        first = ends[row];
      }
      tight += closest < fit->size * 1.05 ? 1 : 0;
      tight_beside += !area.neighbours.empty() && closest < fit->size * 1.05 ? 1 : 0;
    }
  }
  CHECK(plans > 1000);
  CHECK(tight > plans / 3);  // bounds that bound nothing would pass too
  CHECK(tight_beside > beside / 3);
}

}  // namespace ordinatio::plan_bounds_test
