#include "machine/tour.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>

#include "travel.h"

namespace ordinatio::tour_test {

namespace {

/// The least over all orders and all places, by trying them; precedence is kept.
double least_by_trial(const TourTask& task) {
  std::vector<std::size_t> order(task.stops.size());
  std::iota(order.begin(), order.end(), 0);
  double least = 1e300;
  do {
    std::vector<std::size_t> turn(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) turn[order[i]] = i;
    const auto holds = [&](const auto& pair) { return turn[pair.first] < turn[pair.second]; };
    if (!std::ranges::all_of(task.precedence, holds)) continue;
    std::vector<Visit> tour;
    const auto go_on = [&](const auto& self, double so_far) -> void {
      if (so_far >= least) return;
      if (tour.size() == order.size()) {
        least = std::min(least, travel_of(task, tour));
        return;
      }
      const std::size_t stop = order[tour.size()];
      for (std::size_t place = 0; place < task.stops[stop].places.size(); ++place) {
        tour.push_back({stop, place});
        TourTask open = task;
        open.ends.to.reset();
        self(self, travel_of(open, tour));
        tour.pop_back();
      }
    };
    go_on(go_on, 0);
  } while (std::ranges::next_permutation(order).found);
  return least;
}

bool is_whole(const TourTask& task, const std::vector<Visit>& tour) {
  std::vector<std::size_t> turn(task.stops.size(), task.stops.size());
  for (std::size_t i = 0; i < tour.size(); ++i) turn[tour[i].stop] = i;
  return tour.size() == task.stops.size() && std::ranges::count(turn, task.stops.size()) == 0 &&
         std::ranges::all_of(task.precedence, [&](const auto& pair) { return turn[pair.first] < turn[pair.second]; });
}

/// Points, lines that lead from one end to the other, and triangles, by lot.
TourTask stops_by_lot(std::size_t count, std::mt19937& random) {
  std::uniform_real_distribution<double> any(0, 100), near(-15, 15);
  TourTask task;
  for (std::size_t i = 0; i < count; ++i) {
    const Point at{any(random), any(random)};
    const auto by = [&] { return at + Point{near(random), near(random)}; };
    const std::size_t kind = random() % 3;
    if (kind == 0) task.stops.push_back({{at}, true});
    if (kind == 1) task.stops.push_back({{at, by()}, false});
    if (kind == 2) task.stops.push_back({{at, by(), by()}, true});
  }
  if (random() % 2 == 0) task.ends.from = Point{any(random), any(random)};
  if (random() % 2 == 0) task.ends.to = Point{any(random), any(random)};
  return task;
}

void add_precedence(TourTask& task, std::mt19937& random) {
  for (std::size_t first = 0; first + 1 < task.stops.size(); first += 2) {
    if (random() % 2 == 0) task.precedence.emplace_back(first + 1, first);
  }
}

}  // namespace

TEST_CASE("the way through few stops is the shortest there is: by trying all orders, starts and directions") {
  std::mt19937 random(1857);
  for (int run = 0; run < 24; ++run) {
    TourTask task = stops_by_lot(2 + static_cast<std::size_t>(run) % 5, random);
    if (run % 3 == 0) add_precedence(task, random);
    INFO("run " << run);
    REQUIRE(is_small(task));
    const std::vector<Visit> tour = short_tour(task);
    CHECK(is_whole(task, tour));
    CHECK(travel_of(task, tour) == Approx(least_by_trial(task)).epsilon(1e-12));
  }
}

TEST_CASE("nine stops have the shortest way of all their orders") {
  std::mt19937 random(1823);
  std::uniform_real_distribution<double> any(0, 100);
  TourTask task;
  for (int i = 0; i < 9; ++i) task.stops.push_back({{{any(random), any(random)}}, true});
  task.precedence = {{8, 0}, {7, 1}};
  task.ends.from = Point{0, 0};
  std::vector<std::size_t> order(9);
  std::iota(order.begin(), order.end(), 0);
  double least = 1e300;
  do {
    std::vector<Visit> tour;
    for (const std::size_t stop : order) tour.push_back({stop, 0});
    if (is_whole(task, tour)) least = std::min(least, travel_of(task, tour));
  } while (std::ranges::next_permutation(order).found);
  CHECK(travel_of(task, short_tour(task)) == Approx(least).epsilon(1e-12));
}

TEST_CASE("the search finds what the exact way is, or next to it, and keeps what must come first") {
  std::mt19937 random(1792);
  double found = 0, least = 0;
  for (int run = 0; run < 30; ++run) {
    TourTask task = stops_by_lot(10, random);
    if (run % 2 == 0) add_precedence(task, random);
    std::vector<Visit> tour = nearest_tour(task);
    CHECK(is_whole(task, tour));
    const double before = travel_of(task, tour);
    shorten(task, tour);
    choose_places(task, tour);
    INFO("run " << run);
    CHECK(is_whole(task, tour));
    CHECK(travel_of(task, tour) <= before);
    const double exact = travel_of(task, exact_tour(task));
    CHECK(travel_of(task, tour) >= exact - 1e-9);
    CHECK(travel_of(task, tour) <= 1.08 * exact);
    found += travel_of(task, tour), least += exact;
  }
  CHECK(found <= 1.005 * least);
}

TEST_CASE("where many stops begin is chosen as well between neighbours as over all of them") {
  std::mt19937 random(1801);
  std::uniform_real_distribution<double> any(0, 100);
  TourTask task;
  std::vector<Visit> tour;
  for (std::size_t i = 0; i < 40; ++i) {
    Stop stop;
    const Point at{any(random), any(random)};
    for (int corner = 0; corner < 400; ++corner) stop.places.push_back(at + Point{any(random) / 20, any(random) / 20});
    tour.push_back({i, 0});
    task.stops.push_back(std::move(stop));
  }
  std::vector<Visit> swept = tour;  // 40 · 400² pairs of places are too many to compare
  choose_places(task, swept);
  CHECK(travel_of(task, swept) < travel_of(task, tour));
  for (Stop& stop : task.stops) stop.places.resize(200);
  std::vector<Visit> all = tour;
  choose_places(task, all);
  for (Visit& visit : swept) visit.place = std::min<std::size_t>(visit.place, 199);
  CHECK(travel_of(task, all) <= travel_of(task, swept));
}

TEST_CASE("a tour of no stops, of one, and of stops in one place ends") {
  CHECK(short_tour({}).empty());
  TourTask one;
  one.stops.push_back({{{1, 1}, {5, 1}}, true});
  one.ends.from = Point{6, 1};
  CHECK(short_tour(one) == std::vector<Visit>{{0, 1}});
  TourTask same;
  for (int i = 0; i < 200; ++i) same.stops.push_back({{{7, 7}}, true});
  CHECK(is_whole(same, short_tour(same)));
  for (int i = 0; i < 200; ++i) same.stops.push_back({{{7, 7}, {7.0 + i, 7}}, false});
  CHECK(is_whole(same, short_tour(same)));
}

}  // namespace ordinatio::tour_test
