#include "fit/line_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include "fit/plan_search.h"
#include "fit/spread.h"
#include "text/break_penalty.h"

namespace ordinatio::inline fit {
namespace {

constexpr double exactly = 1e-9;  // sizes that differ by less, relative, are the same: the fit itself errs by 1e-10

class Planner {
 public:
  Planner(const PlanQuestion& question, const LineEnds& own)
      : question_(question), widths_(question), own_(own), best_(own), best_worth_(worth_of_own()) {}

  ChosenPlan choose() {
    const double own_worth = best_worth_;
    const std::size_t pieces = question_.pieces.size();
    const bool is_long = question_.reach && pieces > piece_limit;
    if (question_.reach && pieces > few_pieces) spread();
    if (!is_long) find_worthiest();
    const bool gains = own_worth < best_worth_ * (1 - size_tie);
    const LineEnds ends = !gains ? own_ : is_long ? best_ : best_looking();
    const bool limit_reached = is_long || !may_go_on();
    return {ends, fit(ends, 0).size, fits_, widths_.looks(), limit_reached};
  }

 private:
  struct Looks {
    int penalty;
    int unevenness;  // whole per cent
    std::size_t lines;
    auto operator<=>(const Looks&) const = default;
  };

  double worth_of_own() { return worth_of(question_, fit(own_, 0).size, penalty_of(question_, own_)); }

  /// The size at which a plan of this penalty is worth so much.
  [[nodiscard]] double size_worth(double worth, int penalty) const { return worth / worth_of(question_, 1, penalty); }

  PlanFit fit(const LineEnds& ends, double size) {
    const auto known = known_.find(ends);
    if (known != known_.end() && (known->second.exact || known->second.size <= size)) return known->second;
    if (known == known_.end()) ++fits_;
    return known_[ends] = question_.size(ends, size);
  }

  [[nodiscard]] bool may_go_on() const { return fits_ < fit_limit && widths_.looks() < look_limit; }

  /// Tries a plan, and keeps it where it is worth more than the best. Whether it did, and whether it was truly fitted.
  struct Trial {
    bool improves, fitted;
  };
  Trial try_plan(const LineEnds& ends, int penalty) {
    const double size = size_worth(best_worth_ * (1 + exactly), penalty);
    const PlanFit found = fit(ends, size);
    if (!(found.size > size) || !found.exact) return {false, found.fitted};
    best_ = ends;
    best_worth_ = worth_of(question_, found.size, penalty);
    return {true, true};
  }
  bool improves(const LineEnds& ends) { return try_plan(ends, penalty_of(question_, ends)).improves; }

  /// Spreads the text over each number of lines, and makes the best of these plans better, word by word. O(rows · pieces)
  /// and spread_limit fits.
  void spread() {
    const std::size_t pieces = question_.pieces.size();
    for (std::size_t rows = std::max<std::size_t>(least_rows(), 1); rows <= pieces && fits_ < spread_limit; ++rows) {
      constexpr int rounds = 3;  // larger lettering leaves other rooms, which the words then are spread over again
      for (int round = 0; round < rounds; ++round) {
        const std::vector<double> room = question_.room(rows, start());
        if (room.empty()) return move_words();
        const double whole = std::accumulate(room.begin(), room.end(), 0.0);
        if (!(whole > 0) || !improves(spread_over(question_, room, whole))) break;
      }
    }
    move_words();
  }

  void move_words() {
    for (bool better = true; better && fits_ < spread_limit;) {
      better = false;
      for (std::size_t line = 0; line + 1 < best_.size() && fits_ < spread_limit; ++line) {
        for (const bool forward : {false, true}) {
          const auto moved = with_end_moved(question_, best_, line, forward);
          better = (moved && improves(*moved)) || better;
        }
      }
    }
  }

  [[nodiscard]] std::size_t least_rows() const {
    return static_cast<std::size_t>(std::ranges::count_if(question_.pieces, &PlanQuestion::Piece::must_end));
  }

  /// Where the first of several lines may end.
  template <class Use>
  void each_first_end(std::size_t rows, const std::vector<double>& room, Use use) {
    const std::size_t pieces = question_.pieces.size();
    if (rows == 1) return use(pieces);
    for (std::size_t end = 1; end < pieces && widths_(0, end, room[0]) <= room[0]; ++end) {
      const PlanQuestion::Piece& piece = question_.pieces[end - 1];
      if (piece.may_end || piece.must_end) use(end);
      if (piece.must_end) return;
    }
  }

  void find_worthiest() {
    for (std::size_t rows = least_rows(); rows <= question_.pieces.size(); ++rows) {
      if (best_worth_ >= question_.largest * (1 - exactly)) return;
      const std::vector<double> room = question_.room(rows, start());
      if (room.empty()) return;  // more rows would not go at the size of the best worth so far
      if (std::accumulate(room.begin(), room.end(), 0.0) < least_width()) continue;
      each_first_end(rows, room, [&](std::size_t end) { search_from(rows, end); });
    }
  }

  /// Of all lines of any plan together.
  double least_width() {
    if (least_width_ >= 0) return least_width_;
    least_width_ = 0;
    for (std::size_t i = 0; i < question_.pieces.size(); ++i) least_width_ += widths_(i, i + 1, most_width);
    return least_width_;
  }

  [[nodiscard]] double start() const { return std::max(best_worth_, question_.least); }

  void search_from(std::size_t rows, std::size_t first_end) {
    for (bool anew = true; anew && may_go_on();) {
      anew = false;
      const double from = start();
      std::vector<double> room = question_.room(rows, from);
      if (room.empty()) return;
      PlanSearch search(question_, widths_, {rows, first_end, from, PlanSearch::Aim::worth}, std::move(room));
      while (may_go_on()) {
        const auto plan = search.next();
        // A line that takes the share ρ of its room at `from` goes at from/ρ at the most: larger sizes leave less.
        if (!plan || from * std::exp(-plan->cost.first) <= best_worth_ * (1 + exactly)) break;
        const Trial trial = try_plan(plan->ends, plan->penalty);
        if (trial.improves && (anew = best_worth_ > from * worth_anew)) break;
        if (!trial.improves && trial.fitted) search.learn_from(plan->ends);
      }
    }
  }

  /// Of all plans within the tie of the best worth.
  LineEnds best_looking() {
    const double least = best_worth_ * (1 - size_tie);
    LineEnds chosen = best_;
    std::optional<Looks> looks;
    for (std::size_t rows = least_rows(); rows <= question_.pieces.size(); ++rows) {
      const std::vector<double> room = question_.room(rows, least);
      if (room.empty()) break;
      std::optional<PlanSearch::Plan> best;
      each_first_end(rows, room, [&](std::size_t end) {
        auto plan = best_looking_from(rows, end, least, room, best ? &*best : nullptr);
        if (plan && (!best || plan->cost < best->cost)) best = std::move(plan);
      });
      if (!best) continue;
      const Looks these{best->penalty, unevenness(best->ends, room), rows};
      if (looks && !(these < *looks)) continue;
      looks = these;
      chosen = best->ends;
    }
    return chosen;
  }

  std::optional<PlanSearch::Plan> best_looking_from(std::size_t rows, std::size_t first_end, double least,
                                                    const std::vector<double>& room, const PlanSearch::Plan* to_beat) {
    if (!may_go_on()) return std::nullopt;
    PlanSearch search(question_, widths_, {rows, first_end, least, PlanSearch::Aim::looks}, room);
    while (may_go_on()) {
      auto plan = search.next();
      if (!plan || (to_beat != nullptr && !(plan->cost < to_beat->cost))) return std::nullopt;
      const double least_size = size_worth(least, plan->penalty);
      const PlanFit found = fit(plan->ends, least_size * (1 - exactly));
      if (found.size >= least_size) return plan;
      if (found.fitted) search.learn_from(plan->ends);
    }
    return std::nullopt;
  }

  [[nodiscard]] int unevenness(const LineEnds& ends, const std::vector<double>& room) {
    double sum = 0, squares = 0, count = 0;
    std::size_t first = 0;
    for (std::size_t row = 0; row < ends.size(); ++row) {
      const double width = widths_(first, ends[row], room[row]);
      first = ends[row];
      if (width <= 0) continue;  // an empty line
      const double left_over = (room[row] - width) / room[row];
      sum += left_over, squares += left_over * left_over, ++count;
    }
    const double mean = sum / count;
    return static_cast<int>(std::lround(100 * std::sqrt(std::max(0.0, squares / count - mean * mean))));
  }

  static constexpr double most_width = 1e300;
  static constexpr double worth_anew = 1.02;  // a gain that makes it worth to look again with less room

  const PlanQuestion& question_;
  LineWidths widths_;
  const LineEnds& own_;
  std::size_t fits_ = 0;
  std::map<LineEnds, PlanFit> known_;
  LineEnds best_;
  double best_worth_ = 0;
  double least_width_ = -1;
};

}  // namespace

int penalty_of_line(const PlanQuestion& question, std::size_t first, std::size_t last) {
  const PlanQuestion::Piece& end = question.pieces[last - 1];
  const int penalty = last - first == 1 ? std::max(end.penalty, end.alone) : end.penalty;
  if (end.pauses || end.must_end) return penalty;
  const auto begin = question.pieces.begin();
  const bool runs_on =
      std::any_of(begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(last) - 1,
                  [](const PlanQuestion::Piece& piece) { return piece.pauses; });
  return runs_on ? std::max(penalty, break_penalty::run_on) : penalty;
}

int penalty_of(const PlanQuestion& question, const LineEnds& ends) {
  int penalty = 0;
  std::size_t first = 0;
  for (const std::size_t last : ends) penalty += penalty_of_line(question, std::exchange(first, last), last);
  return penalty;
}

double price_of_penalty(const PlanQuestion& question) {
  return -std::log1p(-question.reads_well) / break_penalty::step;
}

double worth_of(const PlanQuestion& question, double size, int penalty) {
  return size * std::exp(-price_of_penalty(question) * penalty);
}

ChosenPlan best_plan(const PlanQuestion& question, const LineEnds& own) { return Planner(question, own).choose(); }

}  // namespace ordinatio::inline fit
