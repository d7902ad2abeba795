// Assignments against two solvers that we did not write, those of GLPK 5.0 (Debian: libglpk-dev; out-of-kilter and Hall's
// matching) and the maximum weighted matching of Boost 1.74 (Debian: libboost-dev); against a published example, and a
// closed form.
#include <glpk.h>

#include "bed/assignment.h"
#include "bed/least_cost.h"

// Boost's headers come after ours, and are not held to our warnings.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/maximum_weighted_matching.hpp>
#pragma GCC diagnostic pop

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace ordinatio;

namespace {

using Indices = std::vector<std::size_t>;

/// Sizes are whole numbers, as GLPK's out-of-kilter algorithm asks.
struct Case {
  std::size_t items, places;
  std::vector<int> sizes;
  std::vector<double> bounds;
  Indices spare;

  [[nodiscard]] int size(std::size_t item, std::size_t place) const { return sizes[item * places + place]; }
};

/// What an item needs times what a place has, times chance; pairs forbidden at random, some of them not by their bound.
Case draw(std::mt19937& random, std::size_t items, std::size_t places, double forbidden, double looseness) {
  std::uniform_real_distribution<double> share(0, 1);
  std::vector<double> item_scale(items), place_scale(places);
  for (double& scale : item_scale) scale = 0.3 + share(random);
  for (double& scale : place_scale) scale = 0.7 + share(random);
  Case drawn{items, places, {}, {}, {}};
  for (std::size_t pair = 0; pair < items * places; ++pair) {
    const double size = 10000 * item_scale[pair / places] * place_scale[pair % places] * (0.5 + share(random));
    const bool can = share(random) >= forbidden, hidden = share(random) < 0.1;
    drawn.sizes.push_back(can ? 1 + static_cast<int>(size) : 0);
    drawn.bounds.push_back(can || hidden ? (1 + size) * (1 + looseness * share(random)) : 0);
  }
  return drawn;
}

Assignment best_of(const Case& of) {
  PairSizes sizes({of.items,
                   of.places,
                   [&of](std::size_t item, std::size_t place) { return of.bounds[item * of.places + place]; },
                   [&of](std::span<const ItemOnPlace> pairs) {
                     std::vector<double> exact;
                     for (const ItemOnPlace pair : pairs) exact.push_back(of.size(pair.item, pair.place));
                     return exact;
                   },
                   of.spare,
                   {},
                   {}});
  return assign(sizes);
}

Indices all_of(std::size_t count) {
  Indices all(count);
  for (std::size_t i = 0; i < count; ++i) all[i] = i;
  return all;
}

Indices served_by(const Assignment& answer) {
  Indices items;
  for (std::size_t item = 0; item < answer.place_of.size(); ++item) {
    if (answer.place_of[item]) items.push_back(item);
  }
  return items;
}

Indices used_by(const Assignment& answer) {
  Indices places;
  for (const auto& place : answer.place_of) {
    if (place) places.push_back(*place);
  }
  return places;
}

/// A bipartite graph of GLPK: the pairs of some items and places whose size is at least so much.
class Graph {
 public:
  Graph(const Case& of, const Indices& items, const Indices& places, int smallest) : items_(items.size()) {
    glp_term_out(GLP_OFF);
    // As many items as places: those added cost nothing anywhere.
    const std::size_t rows = std::max(items.size(), places.size());
    glp_add_vertices(graph_, static_cast<int>(rows + places.size()));
    for (std::size_t v = 0; v < rows + places.size(); ++v) *static_cast<int*>(vertex(v)->data) = v < rows ? 0 : 1;
    for (std::size_t row = 0; row < items.size(); ++row) {
      for (std::size_t column = 0; column < places.size(); ++column) {
        const int size = of.size(items[row], places[column]);
        if (size >= smallest) add_pair(row, rows + column, size);
      }
    }
    rows_ = rows;
    columns_ = places.size();
  }
  Graph(const Graph&) = delete;
  Graph& operator=(const Graph&) = delete;
  ~Graph() { glp_delete_graph(graph_); }

  /// The most items that can be matched (Hall).
  [[nodiscard]] std::size_t most_matched() { return static_cast<std::size_t>(glp_asnprob_hall(graph_, 0, -1)); }
  /// The largest total when all items are matched (out of kilter).
  [[nodiscard]] double largest_total() {
    for (std::size_t row = items_; row < rows_; ++row) {
      for (std::size_t column = 0; column < columns_; ++column) add_pair(row, rows_ + column, 0);
    }
    double total = 0;
    REQUIRE(glp_asnprob_okalg(GLP_ASN_MAX, graph_, 0, 0, &total, -1) == 0);
    return total;
  }

 private:
  [[nodiscard]] glp_vertex* vertex(std::size_t index) const { return graph_->v[index + 1]; }
  void add_pair(std::size_t from, std::size_t to, double size) {
    glp_arc* arc = glp_add_arc(graph_, static_cast<int>(from) + 1, static_cast<int>(to) + 1);
    *static_cast<double*>(arc->data) = size;
  }

  glp_graph* graph_ = glp_create_graph(sizeof(int), sizeof(double));
  std::size_t items_, rows_ = 0, columns_ = 0;
};

std::size_t most_matched(const Case& of, const Indices& items, const Indices& places, int smallest = 1) {
  return Graph(of, items, places, smallest).most_matched();
}

/// Whether the answer's smallest size and total are GLPK's, of the items that it serves on the places that it may use.
void hold_against_glpk(const Case& of, const Assignment& answer) {
  const Indices items = served_by(answer), places = of.spare.empty() ? all_of(of.places) : used_by(answer);
  const int smallest = static_cast<int>(answer.smallest);
  CHECK(most_matched(of, items, places, smallest) == items.size());
  CHECK(most_matched(of, items, places, smallest + 1) < items.size());
  CHECK(answer.total == Graph(of, items, places, smallest).largest_total());
}

/// The items, in order, that raise the most that can be matched, and no others, are served; so with places.
void hold_ranks_against_glpk(const Case& of, const Assignment& answer) {
  const Indices served = served_by(answer), used = used_by(answer);
  Indices items, places;
  for (std::size_t item = 0, count = 0; item < of.items; ++item) {
    items.push_back(item);
    count += answer.place_of[item] ? 1 : 0;
    REQUIRE(most_matched(of, items, all_of(of.places)) == count);
  }
  std::size_t count = 0;
  for (const std::size_t place : of.spare) {
    places.push_back(place);
    count += static_cast<std::size_t>(std::ranges::count(used, place));
    REQUIRE(most_matched(of, served, places) == count);
  }
}

/// The largest total when all items are matched to places at no less than a size, by Boost.
long total_by_boost(const Case& of, int smallest) {
  using Weight = boost::property<boost::edge_weight_t, long>;
  using Pairs = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, Weight>;
  constexpr long matched = 100'000'000;  // worth more than any total, so that as many as can be are matched
  Pairs pairs(of.items + of.places);
  for (std::size_t item = 0; item < of.items; ++item) {
    for (std::size_t place = 0; place < of.places; ++place) {
      if (of.size(item, place) >= smallest) {
        boost::add_edge(item, of.items + place, Weight(matched + of.size(item, place)), pairs);
      }
    }
  }
  std::vector<std::size_t> mates(of.items + of.places);
  boost::maximum_weighted_matching(pairs, mates.data());
  long total = 0;
  for (std::size_t item = 0; item < of.items; ++item) {
    REQUIRE(mates[item] >= of.items);
    REQUIRE(mates[item] < of.items + of.places);
    total += of.size(item, mates[item] - of.items);
  }
  return total;
}

/// The largest total whatever the smallest size, by the assignment's own part for that alone.
int largest_total(std::size_t count, const std::vector<int>& sizes) {
  const int largest = *std::ranges::max_element(sizes);
  LeastCost least_cost(count, count);
  for (std::size_t pair = 0; pair < sizes.size(); ++pair) {
    least_cost.set_cost(pair / count, pair % count, largest - sizes[pair]);
  }
  least_cost.settle();
  int total = 0;
  for (std::size_t row = 0; row < count; ++row) total += sizes[row * count + least_cost.column_of(row)];
  return total;
}

}  // namespace

TEST_CASE("GLPK finds no larger smallest size, and then no larger total") {
  struct Size {
    std::size_t items, places;
    double forbidden;
  };
  std::mt19937 random(703);
  for (const auto& [items, places, forbidden] :
       {Size{200, 200, 0.9}, {200, 150, 0.8}, {70, 70, 0}, {40, 80, 0.2}, {80, 40, 0}}) {
    const Case drawn = draw(random, items, places, forbidden, 0.03);
    INFO(items << " items, " << places << " places, forbidden " << forbidden);
    hold_against_glpk(drawn, best_of(drawn));
  }
}

TEST_CASE("where most pairs are forbidden, GLPK can serve no earlier items and use no earlier places") {
  std::mt19937 random(1965);
  for (const auto& [items, places] : {std::pair{40, 40}, {30, 50}, {50, 30}}) {
    for (int round = 0; round < 4; ++round) {
      Case drawn = draw(random, static_cast<std::size_t>(items), static_cast<std::size_t>(places), 0.96, 0.2);
      drawn.spare = all_of(drawn.places);
      std::ranges::shuffle(drawn.spare, random);
      INFO(items << " items, " << places << " places, round " << round);
      const Assignment answer = best_of(drawn);
      hold_ranks_against_glpk(drawn, answer);
      hold_against_glpk(drawn, answer);
    }
  }
}

TEST_CASE("GLPK uses the same places where many are spared") {
  std::mt19937 random(1971);
  for (int round = 0; round < 3; ++round) {
    Case drawn = draw(random, 30, 60, 0.9, 0.1);
    drawn.spare = all_of(60);
    std::ranges::shuffle(drawn.spare, random);
    const Assignment answer = best_of(drawn);
    hold_ranks_against_glpk(drawn, answer);
    hold_against_glpk(drawn, answer);
  }
}

TEST_CASE("Boost's maximum weighted matching has the same total") {
  std::mt19937 random(1986);
  for (const auto& [items, places] : {std::pair{200, 200}, {100, 140}, {40, 40}}) {
    const Case drawn = draw(random, static_cast<std::size_t>(items), static_cast<std::size_t>(places), 0.2, 0.05);
    const Assignment answer = best_of(drawn);
    REQUIRE(served_by(answer).size() == drawn.items);
    CHECK(answer.total == static_cast<double>(total_by_boost(drawn, static_cast<int>(answer.smallest))));
  }
}

TEST_CASE("a published example has its published optimum") {
  // Project Euler, problem 345 ("Matrix Sum"): the example of its statement, whose largest sum is given as
  // 3315 = 863 + 383 + 343 + 959 + 767.
  const std::vector<int> sizes{7,   53,  183, 439, 863, 497, 383, 563, 79,  973, 287, 63, 343,
                               169, 583, 627, 343, 773, 959, 943, 767, 473, 103, 699, 303};
  CHECK(largest_total(5, sizes) == 3315);
  const Case published{5, 5, sizes, std::vector<double>(sizes.begin(), sizes.end()), {}};
  hold_against_glpk(published, best_of(published));  // where the smallest comes first, that is another
}

TEST_CASE("sizes that are products have the total of the rearrangement inequality") {
  // The largest sum of products is that of like with like: Hardy, Littlewood and Polya, "Inequalities", 1934, theorem 368
  // (from memory). Such sizes are also hard for augmenting paths: Machol and Wien, "A hard assignment problem", 1976.
  constexpr int count = 60;
  std::vector<int> products;
  int squares = 0;
  for (int i = 1; i <= count; ++i) {
    squares += i * i;
    for (int j = count; j > 0; --j) products.push_back(i * j);
  }
  CHECK(largest_total(count, products) == squares);
  // The item of 1 has no more than the largest place, and there the others can have as much: the first with the last.
  const Case of{count, count, products, std::vector<double>(products.begin(), products.end()), {}};
  const Assignment answer = best_of(of);
  CHECK(answer.smallest == count);
  hold_against_glpk(of, answer);
}
