// What must hold of every composition, whatever its words and its blank: tried on random ones, by seed.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <random>

#include "../fit/block_hulls.h"
#include "design/layers.h"
#include "design/text_setting.h"
#include "set_alone.h"

namespace ordinatio::composition_properties_test {

namespace {

using Lines = std::vector<std::string>;
constexpr double exactly = 1e-9;  // relative: the fit gives away 1e-10 of the size

struct Trial {
  Design design;
  Lines lines;
  [[nodiscard]] TextPart& text() { return design.texts.front(); }
};

struct Workbench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  std::mt19937 chance;

  explicit Workbench(unsigned seed) : chance(seed) {}

  double between(double least, double most) { return std::uniform_real_distribution(least, most)(chance); }
  std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(chance); }

  Lines words() {
    static const Lines known{"Quernby", "mill",  "of",   "the", "Thistlethwaite", "Oda",    "and",
                             "Ulf",     "water", "1874", "for", "granary",        "forty,", "summers"};
    std::string line;
    for (std::size_t count = 1 + below(6); count > 0; --count)
      line += known[below(known.size())] + (count > 1 ? " " : "");
    return {line};
  }
  KeptClear stamp(const Design& design) {
    const double width = between(5, design.width / 3), height = between(5, design.height / 3);
    const double left = between(0, design.width - width), bottom = between(0, design.height - height);
    KeptClear thing;
    thing.corners = {{left, bottom}, {left + width, bottom}, {left + width, bottom + height}};
    if (below(2) == 0) thing.corners.push_back({left, bottom + height});
    return thing;
  }
  /// A square or eight-cornered blank and some words.
  Trial trial(LineBreaks breaks, std::size_t stamps) {
    Trial trial;
    Design& design = trial.design;
    design.name = "trial";
    design.width = between(60, 160), design.height = between(40, 120);
    design.blank.outline =
        rectangle_outline(design.width, design.height, below(2) == 0 ? Corner::square : Corner::cut, 11);
    design.margin = 4;
    TextPart text;
    text.look.faces = {below(2) == 0 ? "serif" : "sans"};
    text.language = "en";
    text.breaks = breaks;
    text.min_cap_height = 0.01, text.max_cap_height = 1000;
    design.texts.push_back(text);
    for (; stamps > 0; --stamps) design.kept_clear.push_back(stamp(design));
    trial.lines = words();
    return trial;
  }

  /// Nothing where it cannot be set.
  std::optional<SetText> set(Trial trial) {
    const auto laid = laid_as_drawn(trial.design);
    if (!laid.ok()) return std::nullopt;
    auto text = set_text(*laid, 0, {{"", trial.lines, {}}, ""}, typesetter);
    return text.ok() ? std::optional(std::move(*text)) : std::nullopt;
  }
};

/// Both kinds of text, on bare blanks and on stamped ones.
void each_trial(unsigned seed, int count, const std::function<void(Workbench&, Trial)>& use) {
  Workbench bench(seed);
  for (int i = 0; i < count; ++i) {
    for (const LineBreaks breaks : {LineBreaks::kept, LineBreaks::free}) {
      for (const std::size_t stamps : {0, 1, 3}) {
        Trial trial = bench.trial(breaks, stamps);
        INFO("seed " << seed << ", trial " << i << ", \"" << trial.lines.front() << "\", " << stamps << " stamps, "
                     << (breaks == LineBreaks::free ? "free" : "kept") << " lines");
        use(bench, std::move(trial));
      }
    }
  }
}

Design scaled(Design design, double by) {
  design.width *= by, design.height *= by, design.margin *= by;
  for (Point& p : design.blank.outline.vertices) p = by * p;
  for (KeptClear& thing : design.kept_clear) {
    for (Point& p : thing.corners) p = by * p;
    thing.margin = 0;
  }
  return design;
}

/// A copy of a shape, each point through `map`, which keeps distances.
Polygon mapped(Polygon polygon, const Transform& map) {
  for (Point& p : polygon) p = map(p);
  if (map.determinant() < 0) std::ranges::reverse(polygon);
  return polygon;
}

ClearArea mapped(const ClearArea& area, const Transform& map) {
  ClearArea result{region_of(mapped(polygon_of(area.region), map)), {}};
  for (const ConvexHull& obstacle : area.obstacles) result.obstacles.push_back({mapped(obstacle.vertices, map)});
  return result;
}

/// The set lines as they are, mirrored or turned with their area, and fitted anew.
double size_when_mapped(const SetText& text, const SettingArea& area, const Transform& map, Typesetter& typesetter) {
  std::vector<ConvexHull> parts = line_hulls(text.setting.block, typesetter);
  for (ConvexHull& part : parts) part.vertices = mapped(part.vertices, map);
  const Wish wish{map(text.setting.block.anchor), map(area.target), 1e6, 0.10, 0.01};
  const auto placement = largest_copy(parts, mapped(area.area, map), wish);
  REQUIRE(placement);
  return placement->size;
}

}  // namespace

TEST_CASE("a composition scaled as a whole is the same one, larger") {
  each_trial(11, 12, [](Workbench& bench, Trial trial) {
    trial.design = scaled(trial.design, 1);
    const auto one = bench.set(trial);
    for (const double by : {0.5, 3.0}) {
      Trial other = trial;
      other.design = scaled(trial.design, by);
      const auto larger = bench.set(other);
      REQUIRE(one.has_value() == larger.has_value());
      if (!one) continue;
      CHECK(larger->lines == one->lines);
      CHECK(larger->setting.placement.size == Approx(by * one->setting.placement.size).epsilon(exactly));
      CHECK(larger->setting.placement.shift.x == Approx(by * one->setting.placement.shift.x).epsilon(0).margin(1e-6));
      CHECK(larger->setting.placement.shift.y == Approx(by * one->setting.placement.shift.y).epsilon(0).margin(1e-6));
    }
  });
}

TEST_CASE("a composition seen in a mirror, or upside down, is as large") {
  each_trial(12, 12, [](Workbench& bench, Trial trial) {
    const auto laid = laid_as_drawn(trial.design);
    if (!laid.ok()) return;
    const auto text = bench.set(trial);
    if (!text) return;
    const Transform mirror{-1, 0, 0, 1, 0, 0}, half_turn{-1, 0, 0, -1, 0, 0};
    for (const Transform& map : {mirror, half_turn}) {
      const double size = size_when_mapped(*text, laid->rooms.front().area, map, bench.typesetter);
      CHECK(size == Approx(text->setting.placement.size).epsilon(exactly));
    }
  });
}

TEST_CASE("more margin never makes lettering larger, and more blank never smaller") {
  each_trial(13, 12, [](Workbench& bench, Trial trial) {
    trial.text().off_axis_gain = -1;  // else words may grow by a tenth off the axis, and not where that gains less
    // A hundredth of the size is given up for lines that read better, and as much for a place in the middle.
    const double slack = trial.text().breaks == LineBreaks::kept ? 0.01 + exactly : 0.02 + exactly;
    const auto size_of = [&bench](const Trial& t) {
      const auto text = bench.set(t);
      return text ? text->setting.placement.size : 0;
    };
    const double size = size_of(trial);
    for (const double more : {0.5, 3.0, 8.0}) {
      Trial tighter = trial;
      tighter.design.margin += more;
      CHECK(size_of(tighter) * (1 - slack) <= size);
      Trial roomier = trial;
      roomier.design.width += more, roomier.design.height += 2 * more;
      roomier.design.blank.outline = rectangle_outline(roomier.design.width, roomier.design.height, Corner::square, 0);
      CHECK(size_of(roomier) >= size * (1 - slack));
    }
  });
}

TEST_CASE("it does not matter in which order things are kept clear") {
  each_trial(14, 16, [](Workbench& bench, Trial trial) {
    const auto one = bench.set(trial);
    for (int i = 0; i < 2 && trial.design.kept_clear.size() > 1; ++i) {
      std::ranges::rotate(trial.design.kept_clear, trial.design.kept_clear.begin() + 1);
      const auto other = bench.set(trial);
      REQUIRE(one.has_value() == other.has_value());
      if (!one) continue;
      CHECK(other->lines == one->lines);
      CHECK(other->setting.placement.size == Approx(one->setting.placement.size).epsilon(exactly));
      CHECK(other->setting.placement.shift.x == Approx(one->setting.placement.shift.x).epsilon(0).margin(1e-6));
      CHECK(other->setting.placement.shift.y == Approx(one->setting.placement.shift.y).epsilon(0).margin(1e-6));
    }
  });
}

}  // namespace ordinatio::composition_properties_test
