// In: keys, and what was costly to work out for them. Out: the same again, while it is among what was used last.
// Never: changes what is told; what was let go is worked out anew and comes to the same. Of this folder alone.
#pragma once

#include <cstddef>
#include <list>
#include <unordered_map>
#include <utility>

namespace ordinatio::inline text {

template <class Key, class Value>
class RecentlyUsed {
 public:
  /// `most`: what the entries may weigh together.
  explicit RecentlyUsed(std::size_t most) : most_(most) {}

  /// Nothing where it is not kept. Good until the next keep().
  const Value* find(const Key& key) {
    const auto found = places_.find(key);
    if (found == places_.end()) return nullptr;
    order_.splice(order_.begin(), order_, found->second);
    return &found->second->value;
  }
  /// Keeps what was not kept, and lets go of what was used longest ago while all together weigh too much.
  const Value& keep(const Key& key, Value value, std::size_t weight = 1) {
    order_.push_front({key, std::move(value), weight});
    places_.emplace(key, order_.begin());
    weight_ += weight;
    while (weight_ > most_ && order_.size() > 1) {
      weight_ -= order_.back().weight;
      places_.erase(order_.back().key);
      order_.pop_back();
    }
    return order_.front().value;
  }
  [[nodiscard]] std::size_t weight() const { return weight_; }

 private:
  struct Entry {
    Key key;
    Value value;
    std::size_t weight;
  };
  std::size_t most_, weight_ = 0;
  std::list<Entry> order_;  // used last, first
  std::unordered_map<Key, typename std::list<Entry>::iterator> places_;
};

}  // namespace ordinatio::inline text
