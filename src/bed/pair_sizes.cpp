#include "bed/pair_sizes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace ordinatio::inline bed {
namespace {

constexpr double unknown = -1, waited_for = -2;  // no sizes

/// Numbers from 0 without gaps, in the order in which kinds come.
std::vector<std::size_t> number_kinds(const std::vector<std::size_t>& kinds, std::size_t count) {
  std::vector<std::size_t> numbers(count);
  std::iota(numbers.begin(), numbers.end(), std::size_t{0});
  if (kinds.empty()) return numbers;
  if (kinds.size() != count) throw std::invalid_argument("assignment: there is not one kind for each");
  std::map<std::size_t, std::size_t> number_of;
  for (std::size_t i = 0; i < count; ++i) numbers[i] = number_of.try_emplace(kinds[i], number_of.size()).first->second;
  return numbers;
}

std::vector<std::vector<std::size_t>> members_of(const std::vector<std::size_t>& kinds) {
  std::vector<std::vector<std::size_t>> members;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (kinds[i] == members.size()) members.emplace_back();
    members[kinds[i]].push_back(i);
  }
  return members;
}

void check_spare(std::vector<std::size_t> spare, std::size_t places) {
  if (spare.empty()) return;
  std::vector<std::size_t> all(places);
  std::iota(all.begin(), all.end(), std::size_t{0});
  std::ranges::sort(spare);
  if (spare != all) throw std::invalid_argument("assignment: the order of sparing does not name each place once");
}

void check_size(double size) {
  if (!std::isfinite(size) || size < 0) throw std::logic_error("assignment: a size or bound is negative or not finite");
}

}  // namespace

PairSizes::PairSizes(AssignmentQuestion question) : question_(std::move(question)) {
  if (std::max(items(), places()) > most_to_assign) throw std::length_error("assignment: too many items or places");
  check_spare(question_.spare, places());
  item_kind_ = number_kinds(question_.item_kinds, items());
  place_kind_ = number_kinds(question_.place_kinds, places());
  alike_items_ = members_of(item_kind_);
  alike_places_ = members_of(place_kind_);
  size_.assign(alike_items_.size() * alike_places_.size(), unknown);
  set_bounds();
}

std::vector<ItemOnPlace> PairSizes::learn(std::span<const ItemOnPlace> pairs) {
  const std::vector<ItemOnPlace> batch = unknown_kinds(pairs);
  if (batch.empty()) return {};
  const std::vector<double> sizes = question_.sizes(batch);
  if (sizes.size() != batch.size()) throw std::logic_error("assignment: there is not one size for each pair");
  asked_ += batch.size();
  std::vector<ItemOnPlace> fallen;
  for (std::size_t i = 0; i < batch.size(); ++i) spread(batch[i], sizes[i], fallen);
  return fallen;
}

void PairSizes::set_bounds() {
  at_most_.reserve(items() * places());
  for (std::size_t item = 0; item < items(); ++item) {
    for (std::size_t place = 0; place < places(); ++place) {
      check_size(at_most_.emplace_back(question_.bound(item, place)));
    }
  }
}

double& PairSizes::size_of_kinds(ItemOnPlace pair) {
  return size_[item_kind_[pair.item] * alike_places_.size() + place_kind_[pair.place]];
}

std::vector<ItemOnPlace> PairSizes::unknown_kinds(std::span<const ItemOnPlace> pairs) {
  std::vector<ItemOnPlace> batch;
  for (const ItemOnPlace pair : pairs) {
    if (at_most(pair.item, pair.place) == 0 || size_of_kinds(pair) != unknown) continue;
    size_of_kinds(pair) = waited_for;
    batch.push_back(pair);
  }
  return batch;
}

void PairSizes::spread(ItemOnPlace pair, double size, std::vector<ItemOnPlace>& fallen) {
  check_size(size);
  size_of_kinds(pair) = size;
  for (const std::size_t item : alike_items_[item_kind_[pair.item]]) {
    for (const std::size_t place : alike_places_[place_kind_[pair.place]]) {
      double& bound = at_most_[item * places() + place];
      if (bound == 0) continue;  // not wished
      if (size > bound * (1 + bound_rounding)) throw std::logic_error("assignment: a size is above its bound");
      if (size < bound) fallen.push_back({item, place});
      bound = std::min(bound, size);
    }
  }
}

}  // namespace ordinatio::inline bed
