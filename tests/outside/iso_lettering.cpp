// Measured thickness and leading against ISO 3098-1 (technical lettering), types A and B: heights and ratios as tables in
// textbooks reproduce them (secondary, no library); what a letter's tail and an accent take is from memory.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "fit/fit.h"

using namespace ordinatio;

namespace {

constexpr double heights[] = {2.5, 3.5, 5, 7, 10, 14, 20};  // mm, ISO 3098-1

/// ISO 3098-1 in parts of the height.
struct Lettering {
  const char* type;
  double stroke, gap, tail, accent;      // a tail below the baseline, an accent above a capital
  double with_accents, plain, capitals;  // from baseline to baseline
};
constexpr Lettering types[] = {
    {"A", 1.0 / 14, 2.0 / 14, 4.0 / 14, 5.0 / 14, 25.0 / 14, 21.0 / 14, 17.0 / 14},
    {"B", 1.0 / 10, 2.0 / 10, 3.0 / 10, 4.0 / 10, 19.0 / 10, 15.0 / 10, 13.0 / 10},
};

/// The rules for ems, for letters whose em is so many mm.
GaugeRules rules_at(double em) {
  GaugeRules rules;
  rules.chord_error *= em, rules.step *= em, rules.tip_depth *= em, rules.touch *= em;
  return rules;
}
/// Common in faces: capitals are 0.7 em.
GaugeRules rules_for_capitals(double height) { return rules_at(height / 0.7); }

Polygon bar(double left, double bottom, double width, double height) {
  return {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}, {left, bottom + height}};
}

Polygons letter_i(double height, double stroke) { return {bar(0, 0, stroke, height)}; }

Polygons letter_h(double height, double width, double stroke) {
  const double low = (height - stroke) / 2, high = (height + stroke) / 2, right = width - stroke;
  return {{{0, 0},
           {stroke, 0},
           {stroke, low},
           {right, low},
           {right, 0},
           {width, 0},
           {width, height},
           {right, height},
           {right, high},
           {stroke, high},
           {stroke, height},
           {0, height}}};
}

constexpr int ring_sides = 720;
/// The outer ring's corners lie on its circle and the inner one's edges touch theirs: the ring is nowhere thicker than the
/// stroke.
Polygons letter_o(double height, double stroke) {
  Polygon outer, inner;
  const double r = height / 2, hole = (r - stroke) / std::cos(std::numbers::pi / ring_sides);
  for (int i = 0; i < ring_sides; ++i) {
    const double angle = 2 * std::numbers::pi * i / ring_sides;
    outer.push_back(Point{r, r} + r * Point{std::cos(angle), std::sin(angle)});
    inner.push_back(Point{r, r} + hole * Point{std::cos(-angle), std::sin(-angle)});
  }
  return {outer, inner};
}

double least(const std::vector<Gauge>& gauges) { return gauges.empty() ? 1e9 : gauges.front().width; }

}  // namespace

TEST_CASE("strokes drawn by ISO 3098's rule measure as it says, at each of its heights") {
  for (const Lettering& type : types) {
    for (const double h : heights) {
      INFO("type " << type.type << ", " << h << " mm");
      const double stroke = type.stroke * h, width = 0.6 * h;
      const GaugeRules rules = rules_for_capitals(h);
      const Thickness bars = thickness_of(letter_i(h, stroke), rules);
      CHECK(least(bars.strokes) == Approx(stroke).epsilon(1e-9));
      CHECK(bars.gaps.empty());
      const Thickness crossed = thickness_of(letter_h(h, width, stroke), rules);
      CHECK(least(crossed.strokes) == Approx(stroke).epsilon(1e-9));
      CHECK(least(crossed.gaps) == Approx(width - 2 * stroke).epsilon(1e-9));
      // Chords of 720 lie within 1e-5 of their circle's radius.
      const Thickness ring = thickness_of(letter_o(h, stroke), rules);
      CHECK(least(ring.strokes) == Approx(stroke).epsilon(0).margin(2e-5 * h));
      CHECK(least(ring.gaps) == Approx(h - 2 * stroke).epsilon(0).margin(2e-5 * h));
    }
  }
}

TEST_CASE("the gap between letters by ISO 3098's rule is measured as two strokes, and one where it may be halved") {
  for (const Lettering& type : types) {
    for (const double h : heights) {
      for (const double share : {1.0, 0.5}) {
        const double stroke = type.stroke * h, gap = share * type.gap * h;
        Polygons pair = letter_i(h, stroke);
        pair.push_back(bar(stroke + gap, 0, stroke, h));
        CHECK(least(thickness_of(pair, rules_for_capitals(h)).gaps) == Approx(gap).epsilon(1e-9));
      }
    }
  }
}

TEST_CASE("lines with ISO 3098's leading stand at its distances, and its ink leaves them where they are") {
  constexpr double cap = 0.7;  // em
  for (const Lettering& type : types) {
    struct Spacing {
      double leading, top, bottom;  // in parts of the height
    };
    const Spacing spacings[] = {
        {type.with_accents, 1 + type.accent, type.tail}, {type.plain, 1, type.tail}, {type.capitals, 1, 0}};
    for (const auto& [leading, top, bottom] : spacings) {
      const LineMeasure line{{0, -bottom * cap, 3, top * cap}, 0, 3, cap, 0, 1};
      const std::vector<LineMeasure> lines(4, line);
      BlockStyle style;
      style.leading = leading * cap;
      style.least_gap = type.gap * cap * (1 - 1e-9);  // two strokes of air stay between the lines
      for (const double h : heights) {
        const Placement placement{h / cap, {10, 20}};
        const Arrangement block = arrange(lines, style);
        for (std::size_t i = 1; i < lines.size(); ++i) {
          const double between = placement(block.origins[i - 1]).y - placement(block.origins[i]).y;
          CHECK(between == Approx(leading * h).epsilon(1e-12));
        }
      }
      if (leading != type.with_accents) continue;
      style.least_gap = type.gap * cap * 1.01;  // here ink fills the leading: more air moves the lines
      const Arrangement pushed = arrange(lines, style);
      CHECK(pushed.origins[0].y - pushed.origins[1].y == Approx(cap * (leading + 0.01 * type.gap)).epsilon(1e-12));
    }
  }
}

TEST_CASE("the usual leading is that of ISO 3098's type A with accents, where capitals are 0.7 em") {
  CHECK(BlockStyle{}.leading == Approx(25.0 / 14 * 0.7).epsilon(1e-12));
}
