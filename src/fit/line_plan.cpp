#include "fit/line_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <queue>
#include <set>
#include <utility>

namespace ordinatio {
namespace {

constexpr double exactly = 1e-9;  // sizes that differ by less, relative, are the same: the fit itself errs by 1e-10
constexpr double impossible = std::numeric_limits<double>::infinity();

/// What a plan costs so far. While the largest size is sought: the tightest line, as a share of its room. While the
/// best-looking is sought: penalties, then squares of the room left over.
struct Cost {
  double first = 0, second = 0;
  auto operator<=>(const Cost&) const = default;
};

/// Searches plans with a given number of rows, cheapest first. The costs that lie ahead are known exactly from a pass
/// backwards, so that no partial plan is opened in vain.
class Rows {
 public:
  enum class Aim { size, looks };
  /// `size`: that for which the room was asked; plans that cannot reach it are passed over.
  Rows(const PlanQuestion& question, std::vector<double> room, double size, Aim aim)
      : question_(question), room_(std::move(room)), size_(size), aim_(aim), pieces_(question.pieces.size()) {
    begin();
  }

  /// Looks closer at every line of a plan that fell short of `size`, so that no plan is tried again that would fall short
  /// for the same line; after some such plans at all lines. Begins anew.
  void learn_from(const LineEnds& ends) {
    std::size_t first = 0;
    for (std::size_t row = 0; row < ends.size(); ++row) closer_look(std::exchange(first, ends[row]), ends[row], row);
    tried_.insert(ends);
    ++disappointments_;
    begin();
  }

  struct Plan {
    LineEnds ends;
    Cost cost;
  };
  /// The next plan in order of cost.
  std::optional<Plan> next() {
    while (!queue_.empty()) {
      const std::size_t index = queue_.top().second;
      queue_.pop();
      const Node node = nodes_[index];
      if (node.row < room_.size()) {
        open(node, index);
      } else if (LineEnds ends = ends_of(index); !tried_.contains(ends)) {
        return Plan{std::move(ends), node.total};
      }
    }
    return std::nullopt;
  }
  [[nodiscard]] const std::vector<double>& room() const { return room_; }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  static constexpr std::size_t patience = 6;  // plans that fall short before all lines are looked at: that costs more
  static constexpr Cost hopeless{impossible, impossible};
  struct Node {
    Cost total;  // so far and ahead
    Cost so_far;
    std::size_t piece, row, parent;
  };
  using Entry = std::pair<Cost, std::size_t>;  // ties by index: the order in which they were found

  void begin() {
    nodes_.clear();
    queue_ = {};
    look_ahead();
    if (ahead(0, 0) < hopeless) push({ahead(0, 0), {}, 0, 0, none});
  }

  Cost joined(const Cost& a, const Cost& b) const {
    if (aim_ == Aim::size) return {std::max(a.first, b.first), 0};
    return {a.first + b.first, a.second + b.second};
  }

  /// The cost of a line, or nothing where it does not go into the row; `stop` is set where longer ones do not either.
  std::optional<Cost> line_cost(std::size_t first, std::size_t last, std::size_t row, bool& stop) {
    const PlanQuestion::Piece& end = question_.pieces[last - 1];
    stop = end.must_end;
    if (!end.may_end && !end.must_end) return std::nullopt;
    const double width = question_.width(first, last, room_[row]);
    if (width > room_[row]) {
      stop = true;
      return std::nullopt;
    }
    double share = width / room_[row];
    if (const auto closer = known_size(first, last, row)) share = std::max(share, size_ / *closer);
    if (share > 1 + exactly) return std::nullopt;
    if (aim_ == Aim::size) return Cost{share, 0};
    const double left_over = width > 0 ? (room_[row] - width) / room_[row] : 0;
    return Cost{static_cast<double>(end.penalty), left_over * left_over};
  }

  double closer_look(std::size_t first, std::size_t last, std::size_t row) {
    const auto [entry, is_new] = line_sizes_.try_emplace({first, last, row});
    if (is_new) entry->second = question_.line_size(first, last, row, room_.size());
    return entry->second;
  }
  std::optional<double> known_size(std::size_t first, std::size_t last, std::size_t row) {
    if (disappointments_ >= patience) return closer_look(first, last, row);
    const auto known = line_sizes_.find({first, last, row});
    return known == line_sizes_.end() ? std::nullopt : std::optional(known->second);
  }

  template <class Use>
  void each_line(std::size_t first, std::size_t row, Use use) {
    bool stop = false;
    for (std::size_t last = first + 1; last <= pieces_ && !stop; ++last) {
      if (const auto cost = line_cost(first, last, row, stop)) use(last, *cost);
    }
  }

  void look_ahead() {
    ahead_.assign((pieces_ + 1) * (room_.size() + 1), hopeless);
    ahead(pieces_, room_.size()) = {};
    for (std::size_t row = room_.size(); row-- > 0;) {
      for (std::size_t first = row; first < pieces_; ++first) {
        Cost& best = ahead(first, row);
        each_line(first, row, [&](std::size_t last, const Cost& cost) {
          const Cost& rest = ahead(last, row + 1);
          if (rest < hopeless) best = std::min(best, joined(cost, rest));
        });
      }
    }
  }

  void open(const Node& node, std::size_t index) {
    each_line(node.piece, node.row, [&](std::size_t last, const Cost& cost) {
      const Cost& rest = ahead(last, node.row + 1);
      if (!(rest < hopeless)) return;
      const Cost so_far = joined(node.so_far, cost);
      push({joined(so_far, rest), so_far, last, node.row + 1, index});
    });
  }

  void push(const Node& node) {
    nodes_.push_back(node);
    queue_.push({node.total, nodes_.size() - 1});
  }

  [[nodiscard]] LineEnds ends_of(std::size_t index) const {
    LineEnds ends;
    for (; nodes_[index].parent != none; index = nodes_[index].parent) ends.push_back(nodes_[index].piece);
    std::ranges::reverse(ends);
    return ends;
  }

  Cost& ahead(std::size_t piece, std::size_t row) { return ahead_[row * (pieces_ + 1) + piece]; }

  const PlanQuestion& question_;
  std::vector<double> room_;  // of each row
  double size_;
  Aim aim_;
  std::size_t pieces_;
  std::set<LineEnds> tried_;
  std::size_t disappointments_ = 0;
  std::map<std::array<std::size_t, 3>, double> line_sizes_;  // by first, last, row
  std::vector<Cost> ahead_;
  std::vector<Node> nodes_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
};

class Planner {
 public:
  Planner(const PlanQuestion& question, const LineEnds& own) : question_(question), own_(own) {
    best_ = own;
    best_size_ = fit(own);
  }

  ChosenPlan choose() {
    const double own_size = best_size_;
    find_largest();
    const bool gains = own_size < best_size_ * (1 - size_tie);
    const LineEnds ends = gains ? best_looking() : own_;
    return {ends, fit(ends), fits_};
  }

 private:
  struct Looks {
    int penalty;
    int unevenness;  // whole per cent
    std::size_t lines;
    auto operator<=>(const Looks&) const = default;
  };

  double fit(const LineEnds& ends) {
    const auto known = known_.find(ends);
    if (known != known_.end()) return known->second;
    ++fits_;
    return known_.emplace(ends, question_.size(ends)).first->second;
  }

  [[nodiscard]] bool may_go_on() const { return fits_ < fit_limit; }

  [[nodiscard]] std::size_t least_rows() const {
    return static_cast<std::size_t>(std::ranges::count_if(question_.pieces, &PlanQuestion::Piece::must_end));
  }

  void find_largest() {
    for (std::size_t rows = least_rows(); rows <= question_.pieces.size(); ++rows) {
      if (best_size_ >= std::min(question_.largest, question_.rows_size(rows)) * (1 - exactly)) return;
      if (!search_rows(rows)) return;
    }
  }

  /// False where so many rows do not go at the best size so far; more would not either.
  bool search_rows(std::size_t rows) {
    const double most = std::min(question_.largest, question_.rows_size(rows)) * (1 - exactly);
    for (bool anew = true; anew;) {
      anew = false;
      const double start = std::max(best_size_, question_.least);
      std::vector<double> room = question_.room(rows, start);
      if (room.empty()) return false;
      Rows search(question_, std::move(room), start, Rows::Aim::size);
      while (may_go_on()) {
        const auto plan = search.next();
        // A line that takes the share ρ of its room at `start` goes at start/ρ at the most: larger sizes leave less.
        if (!plan || start <= best_size_ * plan->cost.first * (1 + exactly)) break;
        const double size = fit(plan->ends);
        if (size <= best_size_ * (1 + exactly)) {
          search.learn_from(plan->ends);
          continue;
        }
        best_ = plan->ends;
        best_size_ = size;
        if (best_size_ >= most) return true;
        if ((anew = size > start * worth_anew)) break;
      }
    }
    return true;
  }

  /// Of all plans within the tie of the best size.
  LineEnds best_looking() {
    const double least = best_size_ * (1 - size_tie);
    LineEnds chosen = best_;
    std::optional<Looks> looks;
    for (std::size_t rows = least_rows(); rows <= question_.pieces.size(); ++rows) {
      std::vector<double> room = question_.room(rows, least);
      if (room.empty()) break;
      Rows search(question_, room, least, Rows::Aim::looks);
      while (may_go_on()) {
        const auto plan = search.next();
        if (!plan || (looks && plan->cost.first > looks->penalty)) break;
        if (fit(plan->ends) < least) {
          search.learn_from(plan->ends);
          continue;
        }
        const Looks these{static_cast<int>(plan->cost.first), unevenness(plan->ends, room), rows};
        if (!looks || these < *looks) {
          looks = these;
          chosen = plan->ends;
        }
        break;
      }
    }
    return chosen;
  }

  [[nodiscard]] int unevenness(const LineEnds& ends, const std::vector<double>& room) const {
    double sum = 0, squares = 0, count = 0;
    std::size_t first = 0;
    for (std::size_t row = 0; row < ends.size(); ++row) {
      const double width = question_.width(first, ends[row], impossible);
      first = ends[row];
      if (width <= 0) continue;  // a blank line
      const double left_over = (room[row] - width) / room[row];
      sum += left_over, squares += left_over * left_over, ++count;
    }
    const double mean = sum / count;
    return static_cast<int>(std::lround(100 * std::sqrt(std::max(0.0, squares / count - mean * mean))));
  }

  static constexpr double worth_anew = 1.02;  // a gain that makes it worth to look again with less room

  const PlanQuestion& question_;
  const LineEnds& own_;
  LineEnds best_;
  double best_size_ = 0;
  std::size_t fits_ = 0;
  std::map<LineEnds, double> known_;
};

}  // namespace

ChosenPlan best_plan(const PlanQuestion& question, const LineEnds& own) { return Planner(question, own).choose(); }

}  // namespace ordinatio
