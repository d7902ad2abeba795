// In: a question about items and places. Out: the size of each pair as far as it is known. Of the assignment.
// Never: asks for a size twice. Of this folder alone.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace ordinatio::inline bed {

/// Items and places each, at most: their pairs take up to 256 MB then. The caller parts what is more.
inline constexpr std::size_t most_to_assign = 2000;
/// A size above its bound by no more than this share is rounding, and counts as the bound.
inline constexpr double bound_rounding = 1e-9;

struct ItemOnPlace {
  std::size_t item = 0, place = 0;
  bool operator==(const ItemOnPlace&) const = default;
};

struct AssignmentQuestion {
  std::size_t items = 0, places = 0;
  /// Never below the size; 0: this pair can never be, whether it does not fit or is not wished. Cheap: each pair is asked.
  std::function<double(std::size_t item, std::size_t place)> bound;
  /// The exact sizes of these pairs, in their order; 0: cannot be. Costly: asked for many at once, so that they may be
  /// worked out on all cores.
  std::function<std::vector<double>(std::span<const ItemOnPlace>)> sizes;
  /// All places, in the order in which they are to be used up, where some are left over. Empty: none is spared.
  std::vector<std::size_t> spare;
  /// A number for each item, and for each place; those with the same number are alike: they have the same sizes, except
  /// where a bound is 0, so one is asked for all. Empty: no two are alike.
  std::vector<std::size_t> item_kinds, place_kinds;
};

/// What is known of all sizes: exact ones, and bounds for the rest.
class PairSizes {
 public:
  /// Throws std::length_error over most_to_assign, std::invalid_argument when a list in the question does not name each
  /// place or item, std::logic_error when a bound is negative or not finite.
  explicit PairSizes(AssignmentQuestion question);

  [[nodiscard]] std::size_t items() const { return question_.items; }
  [[nodiscard]] std::size_t places() const { return question_.places; }
  [[nodiscard]] const std::vector<std::size_t>& spare() const { return question_.spare; }
  /// The size where it is known, else its bound.
  [[nodiscard]] double at_most(std::size_t item, std::size_t place) const { return at_most_[item * places() + place]; }
  [[nodiscard]] std::size_t asked() const { return asked_; }

  /// Asks for the sizes of these pairs that are not known, all at once. Returns the pairs whose at_most fell.
  std::vector<ItemOnPlace> learn(std::span<const ItemOnPlace> pairs);

 private:
  void set_bounds();
  double& size_of_kinds(ItemOnPlace pair);
  std::vector<ItemOnPlace> unknown_kinds(std::span<const ItemOnPlace> pairs);
  void spread(ItemOnPlace pair, double size, std::vector<ItemOnPlace>& fallen);

  AssignmentQuestion question_;
  std::vector<double> at_most_;                                       // item by item
  std::vector<std::size_t> item_kind_, place_kind_;                   // from 0 without gaps
  std::vector<std::vector<std::size_t>> alike_items_, alike_places_;  // of each kind
  std::vector<double> size_;                                          // item kind by item kind
  std::size_t asked_ = 0;
};

}  // namespace ordinatio::inline bed
