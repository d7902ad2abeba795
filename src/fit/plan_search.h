// In: a question about lines, how many there are to be and where the first ends. Out: the plans, cheapest first.
// Never: fits a block. Of line_plan.cpp alone.
#pragma once

#include <compare>
#include <limits>
#include <optional>
#include <set>
#include <span>
#include <vector>

#include "fit/line_plan.h"

namespace ordinatio::inline fit {

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
  /// Of lines that are known already.
  void count_looks(std::size_t looks) { looks_ += looks; }
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

/// What lines take together: the tightest one's share of its room, as a logarithm, since what they cost to read multiplies;
/// their penalties; and the squares of the shares of room left over.
struct LineSums {
  double tightness = -std::numeric_limits<double>::infinity();
  int penalty = 0;
  double squares = 0;
};

/// What plans are put in order by. While the most worth is sought: the tightness and the price of reading it, as a logarithm.
/// While the best-looking is sought: penalties, then the squares.
struct PlanCost {
  double first = 0, second = 0;
  auto operator<=>(const PlanCost&) const = default;
};

/// Plans with a given number of rows and a given first line, in the order of their cost. What lies ahead is bounded from
/// below by a pass backwards: exactly for the looks, closely for the price.
class PlanSearch {
 public:
  enum class Aim { worth, looks };
  struct Task {
    std::size_t rows, first_end;
    double worth;  // plans that cannot reach it are passed over
    Aim aim;
  };
  struct Plan {
    LineEnds ends;
    int penalty;
    PlanCost cost;  // at the aim worth: its true worth is no more than the task's × exp(−cost.first)
  };
  /// `room`: what the question leaves each row where the task's worth is the size.
  PlanSearch(const PlanQuestion& question, LineWidths& widths, const Task& task, std::vector<double> room);

  std::optional<Plan> next();
  /// Looks closer at every line of a plan that fell short, so that no plan is tried again that would fall short for the
  /// same line; after some such plans at all lines. Begins anew, without the plans that came before.
  void learn_from(const LineEnds& ends);

 private:
  struct Node {
    PlanCost total;  // so far and ahead
    LineSums so_far;
    std::size_t piece, row, parent;
  };
  /// What lines from a piece and a row on come to at the least; they need not be the same lines.
  struct Ahead {
    double priced = std::numeric_limits<double>::infinity();  // tightness with its price; infinite: no way ahead
    int penalty = std::numeric_limits<int>::max();
    double squares = 0;  // with that penalty
    [[nodiscard]] bool is_open() const { return priced < std::numeric_limits<double>::infinity(); }
    bool operator==(const Ahead&) const = default;
  };
  /// A line that goes into a row.
  struct RowLine {
    std::size_t last;
    LineSums sums;
  };
  struct Entry {
    PlanCost cost;
    std::size_t index;  // ties by it: the order in which they were found
  };
  static bool comes_later(const Entry& a, const Entry& b) {
    if (a.cost.first != b.cost.first) return a.cost.first > b.cost.first;
    if (a.cost.second != b.cost.second) return a.cost.second > b.cost.second;
    return a.index > b.index;
  }

  void begin();
  void look_ahead();
  [[nodiscard]] Ahead best_ahead(std::size_t row, std::span<const RowLine> lines);
  void open(const Node& node, std::size_t index);
  void push(const Node& node);
  std::size_t pop();
  [[nodiscard]] LineEnds ends_of(std::size_t index) const;
  [[nodiscard]] PlanCost cost_of(const LineSums& lines, const Ahead& rest) const;
  [[nodiscard]] double priced(const LineSums& lines, const Ahead& rest) const;
  /// Those from one piece on, as they stand in row_lines_, once they were asked for.
  struct Run {
    std::size_t begin = 0, end = 0;
    bool is_known = false;
  };
  /// Nothing where the line does not go into the row; `stop` is set where longer ones do not either.
  std::optional<LineSums> sums_of_line(std::size_t first, std::size_t last, std::size_t row, bool& stop);
  std::span<const RowLine> lines_from(std::size_t first, std::size_t row);
  Run& run_of(std::size_t first, std::size_t row) { return runs_[row * pieces_ + first]; }
  std::optional<double> known_size(std::size_t first, std::size_t last, std::size_t row);
  double closer_look(std::size_t first, std::size_t last, std::size_t row);
  double& line_size(std::size_t first, std::size_t last, std::size_t row) {
    return line_sizes_[(row * pieces_ + first) * pieces_ + last - 1];
  }
  Ahead& ahead(std::size_t piece, std::size_t row) { return ahead_[row * (pieces_ + 1) + piece]; }

  const PlanQuestion& question_;
  LineWidths& widths_;
  Task task_;
  std::vector<double> room_;  // of each row
  std::size_t pieces_;
  double price_;  // of one penalty, as a logarithm
  std::set<LineEnds> tried_;
  std::size_t disappointments_ = 0;
  std::vector<double> line_sizes_;  // by row, first, last; less than 0: not looked at; empty: none is
  std::vector<Run> runs_;           // by row, first
  std::vector<RowLine> row_lines_;
  std::vector<Ahead> ahead_;
  std::vector<char> has_changed_;  // of each of ahead_, since it was last looked at
  std::vector<Node> nodes_;
  std::vector<Entry> queue_;  // a heap
};

}  // namespace ordinatio::inline fit
