// What setting a text costs is bounded, and counted: never timed.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "fit/line_plan.h"
#include "fit/setting_work.h"
#include "fit/size_bound.h"
#include "set_once.h"

namespace ordinatio::bounds_test {

namespace {

SettingArea area_of(const ConvexRegion& region, const std::vector<Polygon>& obstacles = {}) {
  SettingArea area{{region, {}}, widths_of(region), {70, 45}, false};
  for (const Polygon& obstacle : obstacles) area.area.obstacles.push_back(hull_of(obstacle));
  return area;
}

struct Kind {
  const char* name;
  SettingArea area;
};

std::vector<Kind> kinds() {
  const ConvexRegion rectangle = region_of(Polygon{{0, 0}, {140, 0}, {140, 90}, {0, 90}});
  const Polygon chip{{120, 90}, {140, 60}, {140, 90}}, stamp{{90, 5}, {125, 5}, {125, 30}, {90, 30}};
  return {{"rectangle", area_of(rectangle)},
          {"rounded", area_of(region_of(rectangle_outline(140, 90, Corner::rounded, 20)))},
          {"chip", area_of(rectangle, {chip})},
          {"chip and stamp", area_of(rectangle, {chip, stamp, {{0, 60}, {20, 90}, {0, 90}}})}};
}

std::string words(std::size_t count, std::string_view word) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) text += (i == 0 ? "" : " ") + std::string(word);
  return text;
}

class Shop {
 public:
  Result<Setting> set(const std::string& text, const SettingArea& area, SettingWork& work,
                      const std::string& face = "serif") {
    return PreparedLines::of(typesetter_, {{text, 0}}, rules(face))->set_in(area, work);
  }
  SizeBound bound(const std::string& text) {
    return *PreparedLines::of(typesetter_, {{text, 0}}, rules("serif"))->bound();
  }
  double smallest_cap(const Setting& setting) {
    return setting.placement.size * typesetter_.metrics("serif")->cap_height;
  }

 private:
  SettingRules rules(const std::string& face) {
    const TextStyle style{{face}, "en", ""};
    const FaceHeights metrics = *typesetter_.metrics(style);
    SettingRules rules;
    rules.styles = {{style, 1, metrics.cap_height, metrics.x_height}};
    rules.breaks = LineBreaks::free;
    return rules;
  }
  FontLibrary library_{"none"};
  Typesetter typesetter_{library_};
};

/// A fit's own limit is met after a fit, not within it.
constexpr std::size_t most_looks = look_limit + look_limit / 10, most_nodes = 100'000;

std::string engraved(const Setting& setting) {
  std::string text;
  for (const BlockLine& line : setting.block.lines) text += (text.empty() ? "" : " ") + line.shaped.text;
  return text;
}

}  // namespace

TEST_CASE("no text costs more than the limits, however many its words and whatever is in their way") {
  for (const Kind& kind : kinds()) {
    for (const std::size_t count : {24, 61, 200, 666}) {
      Shop shop;
      SettingWork work;
      const std::string text = words(count, "ab");
      const auto setting = shop.set(text, kind.area, work);
      INFO(kind.name << ", " << count << " words: " << work.fits << " fits, " << work.looks << " looks, " << work.nodes
                     << " nodes");
      REQUIRE(setting.ok());
      CHECK(work.fits <= fit_limit);
      CHECK(work.looks <= most_looks);
      CHECK(work.nodes <= most_nodes);
      if (count > piece_limit) CHECK(work.fits <= spread_limit + 1);
      CHECK(engraved(*setting) == text);  // and no word is lost
    }
  }
}

TEST_CASE("lines that are the best of those tried say so") {
  Shop shop;
  SettingWork work;
  const auto some = shop.set(words(12, "ab"), kinds().front().area, work);
  REQUIRE(some.ok());
  CHECK_FALSE(work.limit_reached);
  const auto many = shop.set(words(100, "ab"), kinds().front().area, work);
  REQUIRE(many.ok());
  CHECK(work.limit_reached);
  CHECK(many->changes.back().find("the best of") != std::string::npos);
}

TEST_CASE("a long text that is spread is nearly as large as the best of all plans") {
  // Alike words in a rectangle: the best is known from trying each number of words a line.
  Shop shop;
  SettingWork work;
  const Kind rectangle = kinds().front();
  for (const std::size_t count : {61, 100, 200}) {
    const auto setting = shop.set(words(count, "ab"), rectangle.area, work);
    REQUIRE(setting.ok());
    double best = 0;
    for (std::size_t a_line = 4; a_line < 40; ++a_line) {
      std::string text;
      for (std::size_t i = 0; i < count; ++i) text += (i == 0 ? "" : i % a_line == 0 ? "\n" : " ") + std::string("ab");
      std::vector<StyledLine> lines;
      for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back({text.substr(at, end - at), 0});
        at = end + 1;
      }
      const FontLibrary library{"none"};
      Typesetter own(library);
      const TextStyle style{{"serif"}, "en", ""};
      const FaceHeights metrics = *own.metrics(style);
      SettingRules rules;
      rules.styles = {{style, 1, metrics.cap_height, metrics.x_height}};
      const auto kept = set_lines(own, lines, rules, rectangle.area);
      REQUIRE(kept.ok());
      best = std::max(best, kept->placement.size);
    }
    INFO(count << " words");
    CHECK(setting->placement.size > 0.97 * best);
  }
}

TEST_CASE("the bound on a long text's size is none that its setting exceeds") {
  Shop shop;
  SettingWork work;
  for (const char* word : {"ab", "millwright", "I"}) {
    for (const std::size_t count : {61, 150}) {
      const std::string text = words(count, word);
      const auto setting = shop.set(text, kinds().front().area, work);
      REQUIRE(setting.ok());
      const double bound = shop.bound(text).cap_height_in(140, 90), true_size = shop.smallest_cap(*setting);
      INFO(count << " times " << word << ": " << true_size << " of " << bound);
      CHECK(true_size <= bound * (1 + 1e-9));
      CHECK(true_size > bound / 2);  // a bound that bounds nothing would pass too
    }
  }
}

TEST_CASE(
    "two thousand characters of any script are set: one word, right to left, parted by a dictionary, by ideographs") {
  Shop shop;
  const auto repeated = [](std::string_view text, std::size_t times) {
    std::string all;
    for (std::size_t i = 0; i < times; ++i) all += text;
    return all;
  };
  const std::string texts[] = {repeated("abcdefghij", 200), words(285, "بتنيسش"), repeated("กังหันน้ำ", 220),
                               repeated("水磨坊機械館歴史", 250), words(200, "millstone")};
  for (const std::string& text : texts) {
    SettingWork work;
    const auto setting = shop.set(text, kinds()[2].area, work);
    INFO(text.substr(0, 20));
    REQUIRE(setting.ok());
    CHECK(work.fits <= spread_limit + 1);
    CHECK(work.nodes <= most_nodes);
  }
}

}  // namespace ordinatio::bounds_test
