#include "bed/assignment.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "bed/bottleneck.h"
#include "bed/least_cost.h"
#include "bed/matching.h"

namespace ordinatio::inline bed {
namespace {

std::vector<std::size_t> all_of(std::size_t count) {
  std::vector<std::size_t> numbers(count);
  std::iota(numbers.begin(), numbers.end(), std::size_t{0});
  return numbers;
}

std::vector<std::size_t> served_items(const PairSizes& sizes) {
  return first_matched(sizes.items(), sizes.places(),
                       [&](std::size_t item, std::size_t place) { return sizes.at_most(item, place) > 0; });
}

std::vector<std::size_t> places_for(const PairSizes& sizes, const std::vector<std::size_t>& items) {
  const std::vector<std::size_t>& spare = sizes.spare();
  if (spare.empty() || items.size() == sizes.places()) return all_of(sizes.places());
  std::vector<std::size_t> used = first_matched(spare.size(), items.size(), [&](std::size_t place, std::size_t item) {
    return sizes.at_most(items[item], spare[place]) > 0;
  });
  for (std::size_t& place : used) place = spare[place];
  std::ranges::sort(used);
  return used;
}

/// The best matching of all items of a table, by sizes that it asks for as it needs them.
class BestMatching {
 public:
  BestMatching(PairSizes& sizes, PairTable table);
  /// Nothing when sizes turned out to be 0 so that not all items can be matched.
  std::optional<std::vector<ItemOnPlace>> find();

 private:
  void admit(double smallest);
  void set_cost(std::size_t row, std::size_t column);
  void set_cost_of(const std::vector<ItemOnPlace>& pairs);
  [[nodiscard]] std::vector<ItemOnPlace> chosen() const;
  [[nodiscard]] double at_most(std::size_t row, std::size_t column) const {
    return sizes_.at_most(table_.items[row], table_.places[column]);
  }

  PairSizes& sizes_;
  PairTable table_;
  std::vector<std::size_t> row_of_, column_of_;  // of items and places
  Bottleneck bottleneck_;
  LeastCost least_cost_;
  double smallest_ = std::numeric_limits<double>::infinity();  // pairs from here on may be
  int grains_of_one_ = 0;                                      // a size of 1 is 2 to this many grains
};

std::vector<std::size_t> where_in(const std::vector<std::size_t>& some, std::size_t count) {
  std::vector<std::size_t> where(count, Matching::none);
  for (std::size_t i = 0; i < some.size(); ++i) where[some[i]] = i;
  return where;
}

/// Largest sizes are just under 2^53 grains: what a double's 53 bits hold, so no bit of them is lost.
int grains_of_one(const PairSizes& sizes) {
  double largest = 0;
  for (std::size_t item = 0; item < sizes.items(); ++item) {
    for (std::size_t place = 0; place < sizes.places(); ++place)
      largest = std::max(largest, sizes.at_most(item, place));
  }
  int exponent = 0;
  std::frexp(largest, &exponent);
  return std::numeric_limits<double>::digits - exponent;
}

BestMatching::BestMatching(PairSizes& sizes, PairTable table)
    : sizes_(sizes),
      table_(std::move(table)),
      row_of_(where_in(table_.items, sizes.items())),
      column_of_(where_in(table_.places, sizes.places())),
      bottleneck_(sizes_, table_),
      least_cost_(table_.items.size(), table_.places.size()),
      grains_of_one_(grains_of_one(sizes)) {}

std::optional<std::vector<ItemOnPlace>> BestMatching::find() {
  for (;;) {
    const double smallest = bottleneck_.settle();
    if (smallest == 0) return std::nullopt;
    admit(smallest);
    least_cost_.settle();
    std::vector<ItemOnPlace> matching = chosen();
    const std::size_t asked = sizes_.asked();
    set_cost_of(sizes_.learn(matching));
    if (sizes_.asked() == asked) return matching;
  }
}

/// Lets pairs be that are as large as the smallest may now be.
void BestMatching::admit(double smallest) {
  const double before = std::exchange(smallest_, smallest);
  if (smallest == before) return;
  for (std::size_t row = 0; row < table_.items.size(); ++row) {
    for (std::size_t column = 0; column < table_.places.size(); ++column) {
      if (at_most(row, column) >= smallest && at_most(row, column) < before) set_cost(row, column);
    }
  }
}

void BestMatching::set_cost(std::size_t row, std::size_t column) {
  constexpr auto all_grains = std::int64_t{1} << std::numeric_limits<double>::digits;
  const double size = at_most(row, column);
  std::optional<std::int64_t> cost;
  if (size >= smallest_) cost = all_grains - static_cast<std::int64_t>(std::ldexp(size, grains_of_one_));
  least_cost_.set_cost(row, column, cost);
}

void BestMatching::set_cost_of(const std::vector<ItemOnPlace>& pairs) {
  for (const ItemOnPlace pair : pairs) {
    const std::size_t row = row_of_[pair.item], column = column_of_[pair.place];
    if (row != Matching::none && column != Matching::none) set_cost(row, column);
  }
}

std::vector<ItemOnPlace> BestMatching::chosen() const {
  std::vector<ItemOnPlace> matching;
  for (std::size_t row = 0; row < table_.items.size(); ++row) {
    matching.push_back({table_.items[row], table_.places[least_cost_.column_of(row)]});
  }
  return matching;
}

Assignment answer_of(const PairSizes& sizes, const std::vector<ItemOnPlace>& matching, std::size_t asked_before) {
  Assignment answer{std::vector<std::optional<std::size_t>>(sizes.items()), std::vector<double>(sizes.items()), 0, 0,
                    sizes.asked() - asked_before};
  for (const ItemOnPlace pair : matching) {
    const double size = sizes.at_most(pair.item, pair.place);
    answer.place_of[pair.item] = pair.place;
    answer.size_of[pair.item] = size;
    answer.smallest = answer.total > 0 ? std::min(answer.smallest, size) : size;
    answer.total += size;
  }
  return answer;
}

/// First come, first served, by what is known.
std::vector<ItemOnPlace> served_in_order(const PairSizes& sizes) {
  std::vector<std::size_t> free = all_of(sizes.places());
  std::vector<ItemOnPlace> matching;
  for (std::size_t item = 0; item < sizes.items(); ++item) {
    const auto first = std::ranges::find_if(free, [&](std::size_t place) { return sizes.at_most(item, place) > 0; });
    if (first == free.end()) continue;
    matching.push_back({item, *first});
    free.erase(first);
  }
  return matching;
}

}  // namespace

Assignment assign(PairSizes& sizes) {
  const std::size_t asked_before = sizes.asked();
  for (;;) {
    const std::size_t asked = sizes.asked();
    std::vector<std::size_t> items = served_items(sizes);
    if (items.empty()) return answer_of(sizes, {}, asked_before);
    std::vector<std::size_t> places = places_for(sizes, items);
    if (const auto found = BestMatching(sizes, {std::move(items), std::move(places)}).find()) {
      return answer_of(sizes, *found, asked_before);
    }
    // Sizes that were asked for turned out to be 0: each round knows more, so there is an end to them.
    if (sizes.asked() == asked) throw std::logic_error("assignment: items that can be matched were not");
  }
}

Assignment first_come(PairSizes& sizes) {
  const std::size_t asked_before = sizes.asked();
  for (;;) {
    const std::vector<ItemOnPlace> matching = served_in_order(sizes);
    const std::size_t asked = sizes.asked();
    sizes.learn(matching);
    if (sizes.asked() == asked) return answer_of(sizes, matching, asked_before);
  }
}

}  // namespace ordinatio::inline bed
