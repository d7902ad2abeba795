// How long it takes to order many paths, and how much shorter the way between them gets: cmake --preset bench, then build and run
// bench_order.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <numbers>
#include <random>

#include "../unit/machine/travel.h"
#include "machine/path_order.h"

using namespace ordinatio;

namespace {

constexpr double aim = 1;  // seconds for 10,000 paths

/// Paths by lot on a bed of 600 × 400 mm: 0 points to mark, 1 lines to score, 2 round holes to cut, some in others.
std::vector<Path> paths_by_lot(int kind, int count) {
  std::mt19937 random(2026);
  std::uniform_real_distribution<double> across(0, 600), up(0, 400), size(0.5, 6);
  std::vector<Path> paths;
  for (int i = 0; i < count; ++i) {
    const Point at{across(random), up(random)};
    const double reach = size(random);
    Path& path = paths.emplace_back();
    path.move_to(at + Point{reach, 0});
    if (kind == 0) path.close();
    if (kind == 1) path.line_to(at + Point{-reach, size(random)});
    for (int step = 1; kind == 2 && step < 32; ++step) {
      const double turn = step * std::numbers::pi / 16;
      path.line_to(at + Point{reach * std::cos(turn), reach * std::sin(turn)});
    }
    if (kind == 2) path.close();
  }
  return paths;
}

}  // namespace

int main() {
  bool is_quick = true;
  for (const int count : {100, 1'000, 10'000}) {
    constexpr const char* kinds[] = {"points", "lines", "round holes"};
    for (int kind = 0; kind < 3; ++kind) {
      std::vector<FollowedPiece> pieces{{paths_by_lot(kind, count), kind == 2}};
      const double before = travel_between(pieces.front().contours);
      const std::clock_t start = std::clock();  // of the processor: it may be busy with others
      order_contours(pieces);
      const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
      std::printf("%6d %-12s %9.3f s   way %9.0f mm, as they came %9.0f mm\n", count, kinds[kind], seconds,
                  travel_between(pieces.front().contours), before);
      is_quick = is_quick && seconds < aim;
    }
  }
  std::printf("%s: %g s\n", is_quick ? "within the aim" : "over the aim", aim);
  return is_quick ? EXIT_SUCCESS : EXIT_FAILURE;
}
