#include "machine/piece_order.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace ordinatio::inline machine {
namespace {

constexpr double share_of_middles = 1e-3;   // of their distance, beside the gap's: it tells equal gaps apart
constexpr double gap_gain = 1e-9;           // mm: less is rounding, and could go on for ever
constexpr std::size_t longest_shifted = 3;  // pieces that are moved together

double between(double low, double high, double other_low, double other_high) {
  return std::max({other_low - high, low - other_high, 0.0});
}

class PieceOrder {
 public:
  explicit PieceOrder(const std::vector<Bounds>& boxes) : count_(boxes.size()), gaps_(count_ * count_) {
    for (std::size_t i = 0; i < count_; ++i) {
      for (std::size_t j = 0; j < count_; ++j) {
        const Bounds &a = boxes[i], &b = boxes[j];
        const Point apart{between(a.left, a.right, b.left, b.right), between(a.bottom, a.top, b.bottom, b.top)};
        const Point middles = a.centre() - b.centre();
        gaps_[i * count_ + j] = std::sqrt(dot(apart, apart)) + share_of_middles * std::sqrt(dot(middles, middles));
      }
    }
  }

  /// The shorter of what comes of the nearest neighbours and of the order in which the pieces come.
  std::vector<std::size_t> best() {
    order_.resize(count_);
    std::iota(order_.begin(), order_.end(), 0);
    const double as_they_come = shorten_order();
    std::vector<std::size_t> kept = order_;
    go_to_nearest();
    return shorten_order() < as_they_come - gap_gain ? order_ : kept;
  }

 private:
  [[nodiscard]] double gap(std::size_t piece, std::size_t other) const { return gaps_[piece * count_ + other]; }
  /// From the piece in that place to the one in the other; nothing comes behind the last.
  [[nodiscard]] double step(std::size_t place, std::size_t other) const {
    return other < count_ ? gap(order_[place], order_[other]) : 0;
  }

  double shorten_order() {
    while (turn_one() || move_one()) {
    }
    double all = 0;
    for (std::size_t place = 0; place < count_; ++place) all += step(place, place + 1);
    return all;
  }

  void go_to_nearest() {
    std::iota(order_.begin(), order_.end(), 0);
    for (std::size_t at = 1; at < count_; ++at) {
      const auto here = order_.begin() + static_cast<std::ptrdiff_t>(at);
      const auto nearest =
          std::min_element(here, order_.end(), [&, last = order_[at - 1]](std::size_t a, std::size_t b) {
            return std::pair(gap(last, a), a) < std::pair(gap(last, b), b);
          });
      std::iter_swap(here, nearest);
    }
  }

  /// 2-opt: a stretch that is shorter the other way round.
  bool turn_one() {
    for (std::size_t first = 1; first < count_; ++first) {
      for (std::size_t last = first + 1; last < count_; ++last) {
        const double before = step(first - 1, first) + step(last, last + 1);
        const double after = step(first - 1, last) + step(first, last + 1);
        if (!(after < before - gap_gain)) continue;
        std::reverse(order_.begin() + static_cast<std::ptrdiff_t>(first),
                     order_.begin() + static_cast<std::ptrdiff_t>(last) + 1);
        return true;
      }
    }
    return false;
  }

  /// Or-opt: a few pieces that lie better between two others.
  bool move_one() {
    for (std::size_t length = 1; length <= longest_shifted; ++length) {
      for (std::size_t first = 1; first + length <= count_; ++first) {
        const std::size_t last = first + length - 1;
        const double freed = step(first - 1, first) + step(last, last + 1) - step(first - 1, last + 1);
        for (std::size_t to = 1; to <= count_; ++to) {
          if (to >= first && to <= last + 1) continue;
          const double joined = step(to - 1, to);
          const double straight = step(to - 1, first) + step(last, to), turned = step(to - 1, last) + step(first, to);
          if (!(std::min(straight, turned) < freed + joined - gap_gain)) continue;
          shift(first, last, to, turned < straight);
          return true;
        }
      }
    }
    return false;
  }

  void shift(std::size_t first, std::size_t last, std::size_t to, bool turned) {
    const auto at = [&](std::size_t place) { return order_.begin() + static_cast<std::ptrdiff_t>(place); };
    if (turned) std::reverse(at(first), at(last + 1));
    to < first ? std::rotate(at(to), at(first), at(last + 1)) : std::rotate(at(first), at(last + 1), at(to));
  }

  std::size_t count_;
  std::vector<double> gaps_;
  std::vector<std::size_t> order_;
};

}  // namespace

std::vector<std::size_t> order_of_pieces(const std::vector<Bounds>& boxes) {
  if (boxes.size() > most_pieces) {
    std::vector<std::size_t> order(boxes.size());
    std::iota(order.begin(), order.end(), 0);
    return order;
  }
  return PieceOrder(boxes).best();
}

}  // namespace ordinatio::inline machine
