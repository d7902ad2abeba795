// How long it takes to assign many items to as many places, beside the sizes themselves, and how many of those are asked
// for: cmake --preset bench, then build and run bench_assignment.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <random>
#include <string>

#include "bed/assignment.h"

using namespace ordinatio;

namespace {

/// Sizes as of a workshop's day: what an item needs, times what a place has, times how well they go together.
/// spread: of places and of chance, as a share; cap: no size is larger, as a share of the largest.
struct Day {
  const char* name;
  double spread, looseness, cap;
  std::size_t kinds;  // of places; 0: no two are alike
};
constexpr Day days[] = {{"pieces much alike", 0.1, 0.03, 1, 0},          {"pieces unlike", 0.5, 0.03, 1, 0},
                        {"half of the sizes capped", 0.1, 0.03, 0.5, 0}, {"exact bounds", 0.1, 0, 1, 0},
                        {"ten kinds of pieces", 0.1, 0.03, 1, 10},       {"loose bounds", 0.1, 0.3, 1, 0}};

struct Sizes {
  std::size_t places;
  std::vector<double> sizes, bounds;
};

Sizes draw(const Day& day, std::size_t items, std::size_t places) {
  std::mt19937 random(2026);
  std::uniform_real_distribution<double> share(0, 1);
  const auto chance = [&] { return 1 - day.spread * share(random); };
  std::vector<double> item_scale(items), place_scale(places);
  for (double& scale : item_scale) scale = 5 + 15 * share(random);
  for (double& scale : place_scale) scale = chance();
  Sizes drawn{places, {}, {}};
  for (std::size_t item = 0; item < items; ++item) {
    for (std::size_t place = 0; place < places; ++place) {
      const std::size_t like = day.kinds > 0 ? place % day.kinds : place;
      if (like < place) {
        drawn.sizes.push_back(drawn.sizes[item * places + like]);
        drawn.bounds.push_back(drawn.bounds[item * places + like]);
        continue;
      }
      const double cap = 20 * day.cap, size = std::min(cap, item_scale[item] * place_scale[place] * chance());
      drawn.sizes.push_back(size);
      drawn.bounds.push_back(std::min(cap, size * (1 + day.looseness * share(random))));
    }
  }
  return drawn;
}

void time_day(const Day& day, std::size_t items, std::size_t places) {
  const Sizes drawn = draw(day, items, places);
  std::size_t batches = 0;
  AssignmentQuestion question{items,
                              places,
                              [&](std::size_t item, std::size_t place) { return drawn.bounds[item * places + place]; },
                              [&](std::span<const ItemOnPlace> pairs) {
                                ++batches;
                                std::vector<double> sizes;
                                for (const ItemOnPlace pair : pairs)
                                  sizes.push_back(drawn.sizes[pair.item * places + pair.place]);
                                return sizes;
                              },
                              {},
                              {},
                              {}};
  for (std::size_t place = 0; place < (day.kinds > 0 ? places : 0); ++place) {
    question.place_kinds.push_back(place % day.kinds);
  }
  const auto start = std::chrono::steady_clock::now();
  const std::clock_t busy_before = std::clock();
  PairSizes sizes(std::move(question));
  const Assignment best = assign(sizes);
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
  const double busy = static_cast<double>(std::clock() - busy_before) / CLOCKS_PER_SEC;
  const Assignment plain = first_come(sizes);
  std::printf("%-26s %8.3f %8.3f %9zu %8.2f %8zu %9.3f %9.3f %9.1f %9.1f\n", day.name, time.count(), busy, best.asked,
              100.0 * static_cast<double>(best.asked) / static_cast<double>(items * places), batches, plain.smallest,
              best.smallest, plain.total, best.total);
}

}  // namespace

/// bench_assignment [items [places]]: 500 each unless said otherwise.
int main(int count, char** words) {
  const std::size_t items = count > 1 ? std::strtoul(words[1], nullptr, 10) : 500;
  const std::size_t places = count > 2 ? std::strtoul(words[2], nullptr, 10) : items;
  std::printf("%zu items on %zu places; first come, first served beside the best\n\n", items, places);
  std::printf("%-26s %8s %8s %9s %8s %8s %9s %9s %9s %9s\n", "", "seconds", "CPU s", "asked", "% of all", "batches",
              "smallest", "best", "total", "best");
  for (const Day& day : days) time_day(day, items, places);
}
