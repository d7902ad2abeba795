#include "bed/cut_patterns.h"

#include <algorithm>
#include <set>

namespace ordinatio::inline bed {
namespace {

constexpr std::size_t touch_states = 9;  // none, one or both ends, in each direction

Fault too_many_sums() {
  return {"the pieces are too small for the pane", "",
          "more than " + std::to_string(most_sums) + " places for cuts would have to be tried along a side",
          "Plan a smaller pane, or larger pieces"};
}

}  // namespace

Result<Patterns> Patterns::of(const PieceCut& piece, Micron longest) {
  const Micron first = piece.width + piece.kerf, second = piece.height + piece.kerf;
  std::set<Micron> sums;
  for (Micron of_first = 0; of_first <= longest + piece.kerf; of_first += first) {
    for (Micron sum = of_first; sum <= longest + piece.kerf; sum += second) {
      if (sum > 0) sums.insert(sum - piece.kerf);
      if (sums.size() > most_sums) return too_many_sums();
    }
  }
  Patterns patterns;
  patterns.piece_ = piece;
  patterns.sums_.assign(sums.begin(), sums.end());
  return patterns;
}

std::size_t Patterns::span_of(Micron length) const {
  const auto above = std::upper_bound(sums_.begin(), sums_.end(), length);
  const auto count = static_cast<std::size_t>(above - sums_.begin());
  return count == 0 ? 0 : 2 * count - (sums_[count - 1] == length ? 1 : 0);
}

Micron Patterns::length_of(std::size_t span) const {
  if (span == 0) return 0;
  return sums_[(span + 1) / 2 - 1] + (span % 2 == 0 ? 1 : 0);
}

OpenParts::OpenParts(const Patterns& patterns, Micron width, Micron height)
    : patterns_(patterns), spans_up_(patterns.span_of(height) + 1) {
  const std::size_t spans_across = patterns.span_of(width) + 1;
  for (std::size_t span = 0; span < std::max(spans_across, spans_up_); ++span) {
    std::vector<std::uint16_t>& rests = rests_.emplace_back();
    const Micron length = patterns.length_of(span);
    for (const Micron sum : patterns.sums()) {
      if (sum >= length) break;
      rests.push_back(static_cast<std::uint16_t>(patterns.span_of(length - sum - patterns.piece().kerf)));
    }
  }
  known_.assign(spans_across * spans_up_ * touch_states, -1);
}

std::size_t OpenParts::place_of(const State& state) const {
  const int touches = 3 * state.touches[0] + state.touches[1];
  return (state.spans[0] * spans_up_ + state.spans[1]) * touch_states + static_cast<std::size_t>(touches);
}

Worth OpenParts::worth(Micron width, Micron height, const Sides& touched) {
  return worth({{patterns_.span_of(width), patterns_.span_of(height)},
                {touched.left + touched.right, touched.bottom + touched.top}});
}

Worth OpenParts::worth(const State& state) {
  if (state.spans[0] == 0 || state.spans[1] == 0) return 0;
  const std::size_t place = place_of(state);
  if (known_[place] < 0) known_[place] = best(state);
  return known_[place];
}

/// As many pieces as their area allows, each with its kerfs; n of them take at least n − 1 cuts.
Worth OpenParts::at_most(const State& state) const {
  const PieceCut& piece = patterns_.piece();
  const Micron across = patterns_.length_of(state.spans[0]) + piece.kerf;
  const Micron up = patterns_.length_of(state.spans[1]) + piece.kerf;
  const Worth pieces = across * up / ((piece.width + piece.kerf) * (piece.height + piece.kerf));
  if (pieces == 0) return 0;
  const bool touches = state.touches[0] + state.touches[1] > 0;
  return pieces * of_piece - (pieces - 1) * of_cut + (touches ? of_piece / 2 : 0);
}

Worth OpenParts::best(const State& state) {
  if (patterns_.piece().is(patterns_.length_of(state.spans[0]), patterns_.length_of(state.spans[1]))) {
    return of_piece + (state.touches[0] + state.touches[1]) * of_edge +
           Worth{state.touches[0]} * state.touches[1] * of_corner;
  }
  Worth best = 0;
  for (const std::size_t axis : {0U, 1U}) {
    const std::size_t span = state.spans[axis];
    for (std::size_t sum = 0; sum < rests_[span].size(); ++sum) {
      State row = state, others = state;
      row.spans[axis] = 2 * sum + 1;  // just as long as the sum
      row.touches[axis] = state.touches[axis] > 0 ? 1 : 0;
      others.spans[axis] = rest(span, sum);
      others.touches[axis] = state.touches[axis] - row.touches[axis];
      if (at_most(row) + at_most(others) - of_cut <= best) continue;
      best = std::max(best, worth(row) + worth(others) - of_cut);
    }
  }
  return best;
}

}  // namespace ordinatio::inline bed
