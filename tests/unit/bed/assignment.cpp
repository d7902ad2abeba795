#include "bed/assignment.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>
#include <set>

namespace ordinatio::assignment_test {

namespace {

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// A question whose sizes are known to the test. Rows are items.
struct Case {
  std::size_t items = 0, places = 0;
  std::vector<double> sizes, bounds;
  std::vector<std::size_t> spare, item_kinds, place_kinds;

  [[nodiscard]] double size(std::size_t item, std::size_t place) const { return sizes[item * places + place]; }
};

/// The question, and what was asked of it.
struct Asked {
  AssignmentQuestion question;
  std::vector<std::vector<ItemOnPlace>> batches;

  explicit Asked(const Case& of) {
    question = {of.items,
                of.places,
                [&of](std::size_t item, std::size_t place) { return of.bounds[item * of.places + place]; },
                [&of, this](std::span<const ItemOnPlace> pairs) {
                  batches.emplace_back(pairs.begin(), pairs.end());
                  std::vector<double> sizes;
                  for (const ItemOnPlace pair : pairs) sizes.push_back(of.size(pair.item, pair.place));
                  return sizes;
                },
                of.spare,
                of.item_kinds,
                of.place_kinds};
  }
};

Assignment best_of(const Case& of) {
  Asked asked(of);
  PairSizes sizes(asked.question);
  return assign(sizes);
}

/// What an assignment is worth, the criteria in their order, more is better.
struct Worth {
  std::size_t served = 0;
  std::vector<bool> earliest;      // items that have a place
  std::vector<std::int64_t> used;  // places, in the order of sparing
  double smallest = 0, total = 0;
  std::int64_t in_order = 0;
  auto operator<=>(const Worth&) const = default;
};

std::vector<std::int64_t> use_of(const Case& of, const std::vector<std::size_t>& places) {
  std::vector<std::int64_t> used;
  for (std::size_t rank = 0; rank < of.spare.size(); ++rank) {
    if (std::ranges::count(places, of.spare[rank]) > 0) used.push_back(-static_cast<std::int64_t>(rank));
  }
  return used;
}

/// The place of each item, or nowhere.
Worth worth_of(const Case& of, const std::vector<std::size_t>& places) {
  Worth worth;
  std::vector<std::size_t> columns(of.places);
  std::iota(columns.begin(), columns.end(), std::size_t{0});
  if (!of.spare.empty())
    std::erase_if(columns, [&](std::size_t place) { return std::ranges::count(places, place) == 0; });
  worth.served = of.items - static_cast<std::size_t>(std::ranges::count(places, nowhere));
  worth.used = use_of(of, places);
  std::size_t row = 0;
  for (std::size_t item = 0; item < of.items; ++item) {
    worth.earliest.push_back(places[item] != nowhere);
    if (places[item] == nowhere) continue;
    const double size = of.size(item, places[item]);
    worth.smallest = row == 0 ? size : std::min(worth.smallest, size);
    worth.total += size;
    const auto column = std::ranges::find(columns, places[item]) - columns.begin();
    worth.in_order -= column * static_cast<std::int64_t>(worth.served - row++);
  }
  return worth;
}

Worth worth_of(const Case& of, const Assignment& answer) {
  std::vector<std::size_t> places;
  for (const auto& place : answer.place_of) places.push_back(place.value_or(nowhere));
  return worth_of(of, places);
}

/// The best of all assignments: every order of the places, beside empty ones, where each item takes its turn.
Worth best_by_trying_all(const Case& of) {
  std::vector<std::size_t> order(std::max(of.items, of.places)), places(of.items);
  std::iota(order.begin(), order.end(), std::size_t{0});
  Worth best;
  do {
    for (std::size_t item = 0; item < of.items; ++item) {
      const bool can = order[item] < of.places && of.size(item, order[item]) > 0;
      places[item] = can ? order[item] : nowhere;
    }
    if (static_cast<std::size_t>(std::ranges::count(places, nowhere)) + best.served > of.items) continue;
    best = std::max(best, worth_of(of, places));
  } while (std::ranges::next_permutation(order).found);
  return best;
}

/// How sizes and bounds are drawn. Sizes are whole numbers, so totals are exact.
struct Recipe {
  int largest;       // of sizes: few of them make many ties
  double forbidden;  // share of pairs that cannot be
  double looseness;  // bounds lie up to this much above, as a share
  double hidden;     // share of the forbidden whose bound does not say so
};

Case draw(std::mt19937& random, std::size_t items, std::size_t places, const Recipe& recipe) {
  std::uniform_real_distribution<double> share(0, 1);
  std::uniform_int_distribution<int> size(1, recipe.largest);
  Case drawn{items, places, {}, {}, {}, {}, {}};
  for (std::size_t pair = 0; pair < items * places; ++pair) {
    const bool can = share(random) >= recipe.forbidden;
    drawn.sizes.push_back(can ? size(random) : 0);
    drawn.bounds.push_back(drawn.sizes.back() * (1 + recipe.looseness * share(random)));
    if (!can && share(random) < recipe.hidden) drawn.bounds.back() = size(random);
  }
  return drawn;
}

std::vector<std::size_t> shuffled(std::mt19937& random, std::size_t count) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::shuffle(order, random);
  return order;
}

const Recipe recipes[] = {{1000, 0, 0.03, 0}, {1000, 0.3, 0.03, 0}, {1000, 0.6, 0.5, 0.5},
                          {3, 0, 0, 0},       {3, 0.4, 1, 0.5},     {1000, 0.2, 20, 1.0},
                          {1, 0.5, 0, 0},     {4, 0.7, 0.3, 0.3},   {1, 0, 5, 0.5}};

/// Draws cases of a size, plain and with an order of sparing, and holds each against trying all.
void hold_against_all(std::size_t items, std::size_t places, int rounds) {
  const unsigned seed = static_cast<unsigned>(1965 + 10 * items + places);
  std::mt19937 random(seed);
  for (int round = 0; round < rounds; ++round) {
    for (const Recipe& recipe : recipes) {
      Case drawn = draw(random, items, places, recipe);
      if (round % 2 == 1) drawn.spare = shuffled(random, places);
      INFO(items << " items, " << places << " places, seed " << seed << ", round " << round << ", sizes to "
                 << recipe.largest);
      const Assignment answer = best_of(drawn);
      const Worth worth = worth_of(drawn, answer), best = best_by_trying_all(drawn);
      CHECK(worth.earliest == best.earliest);
      CHECK(worth.used == best.used);
      CHECK(worth.smallest == best.smallest);
      CHECK(worth.total == best.total);
      CHECK(worth.in_order == best.in_order);
      CHECK(answer.smallest == worth.smallest);
      CHECK(answer.total == worth.total);
    }
  }
}

/// A large case as a workshop has it: how much an item needs, times how much a place has, times chance.
Case workshop(std::size_t items, std::size_t places, double looseness) {
  std::mt19937 random(1955);
  std::uniform_real_distribution<double> share(0, 1);
  Case drawn{items, places, {}, {}, {}, {}, {}};
  std::vector<double> item_scale(items), place_scale(places);
  for (double& scale : item_scale) scale = 5 + 15 * share(random);
  for (double& scale : place_scale) scale = 0.9 + 0.1 * share(random);
  for (std::size_t pair = 0; pair < items * places; ++pair) {
    drawn.sizes.push_back(item_scale[pair / places] * place_scale[pair % places] * (0.9 + 0.1 * share(random)));
    drawn.bounds.push_back(drawn.sizes.back() * (1 + looseness * share(random)));
  }
  return drawn;
}

}  // namespace

TEST_CASE("an assignment is the best of all there are, by each criterion in its order") {
  SECTION("of all kinds, small") {
    for (std::size_t items = 1; items <= 5; ++items) {
      for (std::size_t places = 1; places <= 5; ++places) hold_against_all(items, places, 20);
    }
  }
  SECTION("as many items as places") {
    hold_against_all(6, 6, 10);
    hold_against_all(8, 8, 2);
  }
  SECTION("more places") {
    hold_against_all(4, 7, 4);
    hold_against_all(6, 8, 2);
  }
  SECTION("more items") {
    hold_against_all(7, 5, 4);
    hold_against_all(8, 6, 2);
  }
}

TEST_CASE("sizes that are no whole numbers are as exact as their sums") {
  std::mt19937 random(1987);
  std::uniform_real_distribution<double> size(0.1, 17);
  for (int round = 0; round < 60; ++round) {
    Case drawn = draw(random, 6, 6, recipes[0]);
    for (std::size_t pair = 0; pair < drawn.sizes.size(); ++pair) {
      drawn.sizes[pair] = size(random);
      drawn.bounds[pair] = drawn.sizes[pair] * (round % 2 == 0 ? 1 : 1.02);
    }
    const Worth worth = worth_of(drawn, best_of(drawn)), best = best_by_trying_all(drawn);
    CHECK(worth.smallest == best.smallest);
    CHECK(worth.total == Approx(best.total).epsilon(1e-14));
  }
}

TEST_CASE("where not all items can be served, the earlier are, even when a later one has to make room") {
  // Item 1 can be on place 0 alone, item 2 on both, item 0 on none; so 1 and 2 are served, on 0 and 1.
  const Case few{4, 2, {0, 0, 5, 0, 9, 2, 9, 9}, {0, 0, 5, 0, 9, 2, 9, 9}, {}, {}, {}};
  const Assignment answer = best_of(few);
  CHECK(answer.place_of == std::vector<std::optional<std::size_t>>{{}, 0, 1, {}});
  CHECK(answer.size_of == std::vector<double>{0, 5, 2, 0});
  CHECK(answer.smallest == 2);
  CHECK(answer.total == 7);
}

TEST_CASE("nothing to assign is assigned to nothing") {
  for (const auto& [items, places] : {std::pair{0, 0}, {0, 3}, {3, 0}}) {
    const Case none{static_cast<std::size_t>(items), static_cast<std::size_t>(places), {}, {}, {}, {}, {}};
    const Assignment answer = best_of(none);
    CHECK(answer.place_of == std::vector<std::optional<std::size_t>>(none.items));
    CHECK(answer.total == 0);
    CHECK(answer.asked == 0);
  }
  Case never{2, 2, {0, 0, 0, 0}, {1, 1, 1, 1}, {}, {}, {}};
  CHECK(best_of(never).place_of == std::vector<std::optional<std::size_t>>(2));
  CHECK(best_of(never).asked == 4);
}

TEST_CASE("items and places that are alike are taken as they come") {
  std::mt19937 random(42);
  for (int round = 0; round < 50; ++round) {
    Case drawn = draw(random, 9, 12, {5, 0.1, 0.2, 0.5});
    for (std::size_t place = 0; place < 12; ++place) {  // items 2, 5 and 7 are alike
      for (const std::size_t item : {5, 7}) {
        drawn.sizes[item * 12 + place] = drawn.sizes[2 * 12 + place];
        drawn.bounds[item * 12 + place] = drawn.bounds[2 * 12 + place];
      }
    }
    for (std::size_t item = 0; item < 9; ++item) {  // places 1, 3 and 10 are alike
      for (const std::size_t place : {3, 10}) {
        drawn.sizes[item * 12 + place] = drawn.sizes[item * 12 + 1];
        drawn.bounds[item * 12 + place] = drawn.bounds[item * 12 + 1];
      }
    }
    const Assignment answer = best_of(drawn);
    const auto& place_of = answer.place_of;
    REQUIRE(std::ranges::all_of(place_of, [](const auto& place) { return place.has_value(); }));
    CHECK(place_of[2] < place_of[5]);
    CHECK(place_of[5] < place_of[7]);
    std::vector<std::size_t> alike;
    for (const auto place : place_of) {
      if (*place == 1 || *place == 3 || *place == 10) alike.push_back(*place);
    }
    CHECK(std::ranges::is_sorted(alike));
    if (alike.size() == 2) CHECK(alike.back() == 3);
    if (alike.size() == 1) CHECK(alike.back() == 1);
  }
}

TEST_CASE("where all are alike, the first items have the first places") {
  const Case alike{40, 60, std::vector<double>(2400, 7), std::vector<double>(2400, 8), {}, {}, {}};
  const Assignment answer = best_of(alike);
  for (std::size_t item = 0; item < 40; ++item) CHECK(answer.place_of[item] == item);
}

TEST_CASE("places that are late in the order of sparing are kept, whatever size they would give") {
  Case drawn{2, 4, {9, 1, 2, 5, 9, 1, 3, 5}, {9, 1, 2, 5, 9, 1, 3, 5}, {1, 2, 3, 0}, {}, {}};
  CHECK(best_of(drawn).place_of == std::vector<std::optional<std::size_t>>{1, 2});
  drawn.spare.clear();
  CHECK(best_of(drawn).place_of == std::vector<std::optional<std::size_t>>{0, 3});
}

TEST_CASE("with exact bounds no size is asked for but those of the answer") {
  const Assignment answer = best_of(workshop(60, 70, 0));
  CHECK(answer.asked == 60);
}

TEST_CASE("with tight bounds few sizes are asked for, in few batches, and none twice") {
  const Case drawn = workshop(100, 100, 0.03);
  Asked asked(drawn);
  PairSizes sizes(asked.question);
  const Assignment answer = assign(sizes);
  std::set<std::pair<std::size_t, std::size_t>> pairs;
  std::size_t count = 0;
  for (const auto& batch : asked.batches) {
    count += batch.size();
    for (const ItemOnPlace pair : batch) pairs.emplace(pair.item, pair.place);
  }
  CHECK(count == answer.asked);
  CHECK(pairs.size() == count);
  CHECK(count < 100 * 100 / 4);
  CHECK(asked.batches.size() < count / 5);
  CHECK(asked.batches.front().size() == 100);
  // A second question is answered from memory, and the same.
  const Assignment again = assign(sizes);
  CHECK(again.asked == 0);
  CHECK(again.place_of == answer.place_of);
}

TEST_CASE("of what is alike one size is asked for") {
  Case drawn{30, 40, {}, {}, {}, {}, {}};
  for (std::size_t item = 0; item < 30; ++item) drawn.item_kinds.push_back(item % 3 * 7);
  for (std::size_t place = 0; place < 40; ++place) drawn.place_kinds.push_back(place % 4);
  for (std::size_t pair = 0; pair < 1200; ++pair) {
    drawn.sizes.push_back(static_cast<double>(1 + (pair / 40 % 3 + 2) * (pair % 40 % 4 + 1) * 5 % 7));
    drawn.bounds.push_back(drawn.sizes.back() * 1.5);
  }
  drawn.bounds[1] = 0;  // item 0 is not wished on place 1, though its like are, and have their largest size there
  Case apart = drawn;
  apart.item_kinds.clear();
  apart.place_kinds.clear();
  const Assignment together = best_of(drawn), one_by_one = best_of(apart);
  CHECK(together.asked <= 12);
  CHECK(one_by_one.asked > 12);
  CHECK(together.place_of == one_by_one.place_of);
  CHECK(together.place_of[0] != 1);
  CHECK(together.size_of[0] == 7);
}

TEST_CASE("first come, first served: each item has the first place that is left and that it can be set on") {
  const Case drawn{3, 3, {0, 4, 9, 3, 8, 8, 2, 5, 1}, {7, 4, 9, 4, 8, 8, 2, 5, 1}, {}, {}, {}};
  Asked asked(drawn);
  PairSizes sizes(asked.question);
  const Assignment answer = first_come(sizes);
  CHECK(answer.place_of == std::vector<std::optional<std::size_t>>{1, 0, 2});
  CHECK(answer.smallest == 1);
  CHECK(answer.total == 8);
  CHECK(answer.asked == 5);  // 0 on 0, 1 on 1, 2 on 2; then 0 on 1, 1 on 0
  CHECK(assign(sizes).smallest == 3);
}

TEST_CASE("the best is never worse than first come, first served, and turned about it is as good") {
  const Case drawn = workshop(50, 60, 0.1);
  Asked asked(drawn);
  PairSizes sizes(asked.question);
  const Assignment best = assign(sizes), plain = first_come(sizes);
  CHECK(best.smallest >= plain.smallest);
  Case turned = drawn;
  std::ranges::reverse(turned.sizes);  // items and places both from the last
  std::ranges::reverse(turned.bounds);
  const Assignment other = best_of(turned);
  CHECK(other.smallest == best.smallest);
  CHECK(other.total == Approx(best.total).epsilon(1e-13));
}

TEST_CASE("what a caller gets wrong is thrown back") {
  const Case good{2, 2, {1, 2, 3, 4}, {1, 2, 3, 4}, {}, {}, {}};
  const auto thrown_by = [](const Case& wrong) { return [&wrong] { best_of(wrong); }; };
  Case wrong = good;
  SECTION("a bound below a size") {
    wrong.bounds[2] = 3 / (1 + 2 * bound_rounding);
    CHECK_THROWS_AS(thrown_by(wrong)(), std::logic_error);
  }
  SECTION("but rounding is forgiven") {
    wrong.bounds[2] = 3 / (1 + bound_rounding / 2);
    CHECK(best_of(wrong).total == Approx(5).epsilon(bound_rounding));
  }
  SECTION("sizes and bounds that are no sizes") {
    for (const double none : {-1.0, std::numeric_limits<double>::infinity(), std::nan("")}) {
      wrong = good;
      wrong.bounds[0] = none;
      CHECK_THROWS_AS(thrown_by(wrong)(), std::logic_error);
      wrong = good;
      wrong.sizes[2] = none;
      CHECK_THROWS_AS(thrown_by(wrong)(), std::logic_error);
    }
  }
  SECTION("lists that do not name all") {
    for (const std::vector<std::size_t>& list : {std::vector<std::size_t>{0}, {0, 0}, {1, 2}}) {
      wrong = good;
      wrong.spare = list;
      CHECK_THROWS_AS(thrown_by(wrong)(), std::invalid_argument);
    }
    wrong = good;
    wrong.place_kinds = {1, 2, 3};
    CHECK_THROWS_AS(thrown_by(wrong)(), std::invalid_argument);
  }
  SECTION("a batch of another length") {
    const AssignmentQuestion question{2,
                                      2,
                                      [](std::size_t, std::size_t) { return 1.0; },
                                      [](std::span<const ItemOnPlace>) { return std::vector<double>(1, 1.0); },
                                      {},
                                      {},
                                      {}};
    PairSizes sizes(question);
    CHECK_THROWS_AS(assign(sizes), std::logic_error);
  }
  SECTION("more than there may be") {
    const AssignmentQuestion question{
        most_to_assign + 1, 1, [](std::size_t, std::size_t) { return 0.0; }, {}, {}, {}, {}};
    CHECK_THROWS_AS(PairSizes(question), std::length_error);
  }
}

}  // namespace ordinatio::assignment_test
