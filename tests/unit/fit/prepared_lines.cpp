#include "fit/prepared_lines.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "set_once.h"

namespace ordinatio::prepared_lines_test {

namespace {

/// A blank of some corners, and on every second one a stamp.
SettingArea random_area(std::mt19937& random) {
  const auto upto = [&random](unsigned most) { return static_cast<double>(random() % most); };
  const int corners = 3 + static_cast<int>(random() % 8);
  const double turn = upto(7), width = 20 + upto(40), height = 15 + upto(30);
  std::vector<Point> points;
  for (int i = 0; i < corners; ++i) {
    const double angle = turn + 2 * std::numbers::pi * i / corners;
    points.push_back({50 + width * std::cos(angle), 40 + height * std::sin(angle)});
  }
  SettingArea area{{region_of(hull_of(points).vertices), {}}, {}, {50, 40}, false};
  area.widths = widths_of(area.area.region);
  const double x = 45 + upto(8), y = 36 + upto(6);
  if (random() % 2 == 0) area.area.obstacles.push_back({{{x, y}, {x + 6, y}, {x + 6, y + 4}, {x, y + 4}}});
  return area;
}

struct Case {
  std::vector<StyledLine> lines;
  SettingRules rules;
};

Case random_case(std::mt19937& random, const LineStyle& style) {
  static const char* lines[] = {"Ada of Quernby", "the millwright’s", "Ĺúçká and pygmy", "1874", "", "I"};
  Case one;
  one.rules.styles = {style, style};
  one.rules.styles[1].size = 0.6;
  one.rules.breaks = static_cast<LineBreaks>(random() % 3);
  one.rules.block.hang_punctuation = random() % 2 == 0;
  one.rules.block.sizes = random() % 4 == 0 ? LineSizes::same_width : LineSizes::as_styled;
  for (unsigned line = 0; line < 1 + random() % 3; ++line) {
    one.lines.push_back({lines[random() % std::size(lines)], random() % 2});
  }
  return one;
}

void check_same(const Result<Setting>& one, const Result<Setting>& other) {
  REQUIRE(one.ok() == other.ok());
  if (!one.ok()) {
    CHECK(describe(one.fault()) == describe(other.fault()));
    return;
  }
  CHECK(one->placement.size == other->placement.size);  // to the last bit
  CHECK(one->placement.shift == other->placement.shift);
  CHECK(one->changes == other->changes);
  CHECK(one->styles == other->styles);
  REQUIRE(one->block.lines.size() == other->block.lines.size());
  for (std::size_t i = 0; i < one->block.lines.size(); ++i) {
    CHECK(one->block.lines[i].shaped.text == other->block.lines[i].shaped.text);
    CHECK(one->block.origins[i] == other->block.origins[i]);
  }
}

}  // namespace

TEST_CASE("lines made ready once are set in one area after another as if each were the only one") {
  const unsigned seed = 1874;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const FontLibrary library{"none"};
  Typesetter typesetter{library}, another{library};
  const TextStyle face{{"serif"}, "en", ""};
  const FaceHeights metrics = *typesetter.metrics(face);
  std::size_t set = 0, kept = 0;
  for (int round = 0; round < 40; ++round) {
    const Case one = random_case(random, {face, 1, metrics.cap_height, metrics.x_height});
    Result<PreparedLines> prepared = PreparedLines::of(typesetter, one.lines, one.rules);
    for (int piece = 0; piece < 4; ++piece) {
      const SettingArea area = random_area(random);
      INFO("round " << round << ", piece " << piece);
      const Result<Setting> alone = set_lines(another, one.lines, one.rules, area);
      REQUIRE((prepared.ok() || !alone.ok()));
      if (!prepared.ok()) continue;
      ChosenSetting chosen;
      check_same(prepared->set_in(area, chosen), alone);
      Result<PreparedLines> again = PreparedLines::of(another, one.lines, one.rules);
      check_same(again->set_in(area, chosen), alone);
      kept += !chosen.ends.empty();
      set += alone.ok();
      const Result<SizeBound> bound = prepared->bound(), own = again->bound();
      REQUIRE(bound.ok());
      CHECK(bound->cap_height_in(60, 40) == own->cap_height_in(60, 40));
    }
  }
  CHECK(set > 60);
  CHECK(kept == set);
}

}  // namespace ordinatio::prepared_lines_test
