// In: a question about lines, how many there are to be and where the first ends. Out: the plans, cheapest first.
// Never: fits a block. Of line_plan.cpp alone.
#pragma once

#include <array>
#include <compare>
#include <map>
#include <optional>
#include <queue>
#include <set>

#include "fit/line_plan.h"

namespace ordinatio {

/// The question's widths, each asked for once.
class LineWidths {
 public:
  explicit LineWidths(const PlanQuestion& question) : question_(question), count_(question.pieces.size()) {}
  /// Exact, or more than `most`.
  double operator()(std::size_t first, std::size_t last, double most) {
    ++looks_;
    if (known_.empty()) known_.resize(count_ * count_);  // long texts ask for none
    Width& width = known_[first * count_ + last - 1];
    if (width.exact || width.at_least > most) return width.at_least;
    width.at_least = question_.width(first, last, most);
    width.exact = width.at_least <= most;
    return width.at_least;
  }
  /// A closer look at a line solves a programme, which takes as long as so many of these looks.
  void count_closer_look() { looks_ += 100; }
  [[nodiscard]] std::size_t looks() const { return looks_; }

 private:
  struct Width {
    double at_least = -1;
    bool exact = false;
  };
  const PlanQuestion& question_;
  std::size_t count_, looks_ = 0;
  std::vector<Width> known_;
};

/// What a plan costs. While the largest size is sought: the tightest line, as a share of its room. While the best-looking
/// is sought: penalties, then squares of the shares of room left over.
struct PlanCost {
  double first = 0, second = 0;
  auto operator<=>(const PlanCost&) const = default;
};

/// Plans with a given number of rows and a given first line, in the order of their cost. The costs that lie ahead are
/// known exactly from a pass backwards, so no partial plan is opened in vain.
class PlanSearch {
 public:
  enum class Aim { size, looks };
  struct Task {
    std::size_t rows, first_end;
    double size;  // plans that cannot reach it are passed over
    Aim aim;
  };
  struct Plan {
    LineEnds ends;
    PlanCost cost;
  };
  /// `room`: what the question leaves each row at the task's size.
  PlanSearch(const PlanQuestion& question, LineWidths& widths, const Task& task, std::vector<double> room);

  std::optional<Plan> next();
  /// Looks closer at every line of a plan that fell short, so that no plan is tried again that would fall short for the
  /// same line; after some such plans at all lines. Begins anew, without the plans that came before.
  void learn_from(const LineEnds& ends);

 private:
  struct Node {
    PlanCost total;  // so far and ahead
    PlanCost so_far;
    std::size_t piece, row, parent;
  };
  using Entry = std::pair<PlanCost, std::size_t>;  // ties by index: the order in which they were found

  void begin();
  void look_ahead();
  void open(const Node& node, std::size_t index);
  void push(const Node& node);
  [[nodiscard]] LineEnds ends_of(std::size_t index) const;
  [[nodiscard]] PlanCost joined(const PlanCost& a, const PlanCost& b) const;
  /// Nothing where the line does not go into the row; `stop` is set where longer ones do not either.
  std::optional<PlanCost> line_cost(std::size_t first, std::size_t last, std::size_t row, bool& stop);
  template <class Use>
  void each_line(std::size_t first, std::size_t row, Use use);
  std::optional<double> known_size(std::size_t first, std::size_t last, std::size_t row);
  double closer_look(std::size_t first, std::size_t last, std::size_t row);
  PlanCost& ahead(std::size_t piece, std::size_t row) { return ahead_[row * (pieces_ + 1) + piece]; }

  const PlanQuestion& question_;
  LineWidths& widths_;
  Task task_;
  std::vector<double> room_;  // of each row
  std::size_t pieces_;
  std::set<LineEnds> tried_;
  std::size_t disappointments_ = 0;
  std::map<std::array<std::size_t, 3>, double> line_sizes_;  // by first, last, row
  std::vector<PlanCost> ahead_;
  std::vector<Node> nodes_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
};

}  // namespace ordinatio
