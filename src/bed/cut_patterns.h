// In: the piece's sides and the kerf, in whole micrometres.
// Out: where normal patterns put cuts, and what a part is worth that nothing lies in. Of this folder alone.
// Never: knows where in the pane a part lies.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "bed/cutting.h"

namespace ordinatio::inline bed {

/// Lengths are whole micrometres here, so that sums of them are exact and can be looked up.
using Micron = std::int64_t;
inline constexpr double microns_per_mm = 1000;

struct PieceCut {
  Micron width = 0, height = 0, kerf = 0;
  [[nodiscard]] bool is(Micron across, Micron up) const {
    return (across == width && up == height) || (across == height && up == width);
  }
};

/// What a plan is worth as one number: its digits are counted in the order of the objective, cuts count against it.
using Worth = std::int64_t;
inline constexpr Worth of_cut = 1;
inline constexpr Worth of_thing = Worth{1} << 20;   // there are fewer cuts: a few a piece, of at most most_spans pieces
inline constexpr Worth of_corner = Worth{1} << 24;  // there are at most most_things things
inline constexpr Worth of_edge = Worth{1} << 28;    // there are at most four corners
inline constexpr Worth of_piece = Worth{1} << 45;   // at most most_sums pieces lie along an edge

/// Sums of piece sides with the kerfs between them: how far a row of pieces reaches.
class Patterns {
 public:
  /// Faults: more than most_sums.
  static Result<Patterns> of(const PieceCut& piece, Micron longest);
  [[nodiscard]] const PieceCut& piece() const { return piece_; }
  [[nodiscard]] const std::vector<Micron>& sums() const { return sums_; }
  /// Lengths between the same two sums take the same rows of pieces, and so are one span; a length that is a sum is a span
  /// of its own, since there nothing is left to cut off. 0: no piece goes in.
  [[nodiscard]] std::size_t span_of(Micron length) const;
  /// Any length of the span.
  [[nodiscard]] Micron length_of(std::size_t span) const;

 private:
  PieceCut piece_;
  std::vector<Micron> sums_;  // ascending
};

/// The worth of parts without things in them: it hangs on their spans and on how many factory edges they touch, left and
/// right, bottom and top. Rows can be mirrored, so cuts at sums from one end alone are enough.
class OpenParts {
 public:
  OpenParts(const Patterns& patterns, Micron width, Micron height);
  Worth worth(Micron width, Micron height, const Sides& touched);

 private:
  struct State {
    std::array<std::size_t, 2> spans;  // across, up
    std::array<int, 2> touches;        // of two ends each
  };
  Worth worth(const State& state);
  Worth best(const State& state);
  [[nodiscard]] Worth at_most(const State& state) const;
  [[nodiscard]] std::size_t place_of(const State& state) const;
  /// The span that is left of a span behind a row that reaches as far as a sum, and the blade.
  [[nodiscard]] std::size_t rest(std::size_t span, std::size_t sum) const { return rests_[span][sum]; }

  const Patterns& patterns_;
  std::size_t spans_up_;
  std::vector<std::vector<std::uint16_t>> rests_;
  std::vector<Worth> known_;  // -1: not yet
};

}  // namespace ordinatio::inline bed
