// What setting a text costs as it grows, in clear areas of each kind: counts, and the time beside them for a person to see.
// The counts must level off; tests/unit/fit/bounds.cpp holds them to their limits.
//   bench_bounds [WORDS]
#include <chrono>
#include <cstdio>

#include "fit/prepared_lines.h"
#include "fit/setting_work.h"

using namespace ordinatio;

namespace {

struct Kind {
  const char* name;
  SettingArea area;
};

SettingArea area_of(const ConvexRegion& region, const std::vector<Polygon>& obstacles) {
  SettingArea area{{region, {}}, widths_of(region), {70, 45}, false};
  for (const Polygon& obstacle : obstacles) area.area.obstacles.push_back(hull_of(obstacle));
  return area;
}

std::vector<Kind> kinds() {
  const ConvexRegion rectangle = region_of(Polygon{{0, 0}, {140, 0}, {140, 90}, {0, 90}});
  const ConvexRegion rounded = region_of(rectangle_outline(140, 90, Corner::rounded, 20));
  const Polygon chip{{120, 90}, {140, 60}, {140, 90}}, stamp{{90, 5}, {125, 5}, {125, 30}, {90, 30}};
  return {{"rectangle", area_of(rectangle, {})},
          {"rounded", area_of(rounded, {})},
          {"chip", area_of(rectangle, {chip})},
          {"stamp", area_of(rectangle, {stamp})},
          {"both", area_of(rounded, {chip, stamp})}};
}

std::string words_of(std::size_t count, bool alike) {
  constexpr const char* words[] = {"ab", "the", "millwright", "of", "Quernby", "I", "and", "1874"};
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    text += (i == 0 ? "" : " ") + std::string(alike ? "ab" : words[(i * 7 + i / 5) % std::size(words)]);
  }
  return text;
}

void run(const Kind& kind, std::size_t count, bool alike, const FontLibrary& library) {
  Typesetter typesetter(library);
  const TextStyle style{{"serif"}, "en", ""};
  const Result<FaceHeights> metrics = typesetter.metrics(style);
  if (!metrics.ok()) return;
  SettingRules rules;
  rules.styles = {{style, 1, metrics->cap_height, metrics->x_height}};
  rules.breaks = LineBreaks::free;
  SettingWork work;
  const auto start = std::chrono::steady_clock::now();
  const auto setting = PreparedLines::of(typesetter, {{words_of(count, alike), 0}}, rules)->set_in(kind.area, work);
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  std::printf("%-10s %-5s %4zu words: %4zu fits %8zu looks %6zu programmes %6lld ms%s\n", kind.name,
              alike ? "alike" : "mixed", count, work.fits, work.looks, work.nodes, static_cast<long long>(took.count()),
              setting.ok() ? "" : "  held");
}

}  // namespace

int main(int argc, char** argv) {
  const std::size_t most = argc > 1 ? std::stoul(argv[1]) : 800;
  const FontLibrary library("none");
  for (const Kind& kind : kinds()) {
    for (const bool alike : {true, false}) {
      for (std::size_t count = 50; count <= most; count *= 2) run(kind, count, alike, library);
    }
  }
  return 0;
}
