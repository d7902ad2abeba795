#include "fit/plan_search.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

namespace ordinatio::inline fit {
namespace {

constexpr double same_share = 1e-9;  // shares of the room that differ by less, relative, are the same
constexpr std::size_t patience = 6;  // plans that fall short before all lines are looked at: that costs more
constexpr std::size_t none = static_cast<std::size_t>(-1);

}  // namespace

PlanSearch::PlanSearch(const PlanQuestion& question, LineWidths& widths, const Task& task, std::vector<double> room)
    : question_(question),
      widths_(widths),
      task_(task),
      room_(std::move(room)),
      pieces_(question.pieces.size()),
      price_(price_of_penalty(question)),
      runs_(task.rows * pieces_) {
  begin();
}

std::optional<PlanSearch::Plan> PlanSearch::next() {
  while (!queue_.empty() && widths_.looks() < look_limit) {
    const std::size_t index = pop();
    const Node node = nodes_[index];
    if (node.row < task_.rows) {
      open(node, index);
    } else if (LineEnds ends = ends_of(index); !tried_.contains(ends)) {
      return Plan{std::move(ends), node.so_far.penalty, node.total};
    }
  }
  return std::nullopt;
}

void PlanSearch::learn_from(const LineEnds& ends) {
  std::size_t first = 0;
  for (std::size_t row = 0; row < ends.size(); ++row) {
    closer_look(first, ends[row], row);
    run_of(std::exchange(first, ends[row]), row).is_known = false;
  }
  tried_.insert(ends);
  if (++disappointments_ == patience) {
    std::ranges::fill(runs_, Run{});
    row_lines_.clear();
  }
  begin();
}

void PlanSearch::begin() {
  nodes_.clear();
  queue_.clear();
  look_ahead();
  const Ahead& all = ahead(0, 0);
  if (all.is_open()) push({cost_of({}, all), {}, 0, 0, none});
}

/// After a plan that fell short only its own lines have changed, and what leads to them: the rest is as it was.
void PlanSearch::look_ahead() {
  const bool is_first = ahead_.empty();
  if (is_first) {
    ahead_.assign((pieces_ + 1) * (task_.rows + 1), {});
    ahead(pieces_, task_.rows) = {-std::numeric_limits<double>::infinity(), 0, 0};
  }
  has_changed_.assign(ahead_.size(), is_first ? 1 : 0);
  for (std::size_t row = task_.rows; row-- > 0;) {
    const std::size_t from = row == 0 ? 0 : task_.first_end + row - 1, to = row == 0 ? 1 : pieces_;
    const char* const below = has_changed_.data() + (row + 1) * (pieces_ + 1);
    for (std::size_t first = from; first < to; ++first) {
      const bool is_new = !run_of(first, row).is_known;
      const std::span<const RowLine> lines = lines_from(first, row);
      const auto leads_to_change = [below](const RowLine& line) { return below[line.last] != 0; };
      if (!is_new && std::ranges::none_of(lines, leads_to_change)) continue;
      const Ahead best = best_ahead(row, lines);
      if (!is_first) has_changed_[row * (pieces_ + 1) + first] = best == ahead(first, row) ? 0 : 1;
      ahead(first, row) = best;
    }
  }
}

PlanSearch::Ahead PlanSearch::best_ahead(std::size_t row, std::span<const RowLine> lines) {
  Ahead best;
  for (const auto& [last, line] : lines) {
    const Ahead& rest = ahead(last, row + 1);
    if (!rest.is_open()) continue;
    const double price = priced(line, rest);
    if (price > same_share) continue;
    best.priced = std::min(best.priced, price);
    const std::pair looks{line.penalty + rest.penalty, line.squares + rest.squares};
    if (looks < std::pair{best.penalty, best.squares}) std::tie(best.penalty, best.squares) = looks;
  }
  return best;
}

void PlanSearch::open(const Node& node, std::size_t index) {
  for (const auto& [last, line] : lines_from(node.piece, node.row)) {
    const Ahead& rest = ahead(last, node.row + 1);
    const LineSums so_far{std::max(node.so_far.tightness, line.tightness), node.so_far.penalty + line.penalty,
                          node.so_far.squares + line.squares};
    if (!rest.is_open() || priced(so_far, rest) > same_share) continue;
    push({cost_of(so_far, rest), so_far, last, node.row + 1, index});
  }
}

void PlanSearch::push(const Node& node) {
  nodes_.push_back(node);
  queue_.push_back({node.total, nodes_.size() - 1});
  std::ranges::push_heap(queue_, comes_later);
}

std::size_t PlanSearch::pop() {
  std::ranges::pop_heap(queue_, comes_later);
  const std::size_t index = queue_.back().index;
  queue_.pop_back();
  return index;
}

PlanCost PlanSearch::cost_of(const LineSums& lines, const Ahead& rest) const {
  if (task_.aim == Aim::worth) return {priced(lines, rest), 0};
  return {static_cast<double>(lines.penalty + rest.penalty), lines.squares + rest.squares};
}

/// A bound from below: the tightest line of all is one of these or one of the rest, and there is no way past what the rest
/// costs to read at the least.
double PlanSearch::priced(const LineSums& lines, const Ahead& rest) const {
  return std::max(lines.tightness + price_ * (lines.penalty + rest.penalty), rest.priced + price_ * lines.penalty);
}

LineEnds PlanSearch::ends_of(std::size_t index) const {
  LineEnds ends;
  for (; nodes_[index].parent != none; index = nodes_[index].parent) ends.push_back(nodes_[index].piece);
  std::ranges::reverse(ends);
  return ends;
}

std::optional<LineSums> PlanSearch::sums_of_line(std::size_t first, std::size_t last, std::size_t row, bool& stop) {
  const PlanQuestion::Piece& end = question_.pieces[last - 1];
  stop = end.must_end;
  if (!end.may_end && !end.must_end) return std::nullopt;
  if ((row == 0) != (first == 0) || (row == 0 && last != task_.first_end)) return std::nullopt;
  if ((row + 1 == task_.rows) != (last == pieces_)) return std::nullopt;
  const double width = widths_(first, last, room_[row]);
  if (width > room_[row]) {
    stop = true;
    return std::nullopt;
  }
  double share = std::max(width / room_[row], task_.worth / question_.largest);
  if (last == pieces_) share = std::max(share, task_.worth / question_.height_size(task_.rows, task_.first_end, first));
  if (const auto closer = known_size(first, last, row)) share = std::max(share, task_.worth / *closer);
  if (share > 1 + same_share) return std::nullopt;
  const double left_over = width > 0 ? (room_[row] - width) / room_[row] : 0;
  return LineSums{std::log(share), penalty_of_line(question_, first, last), left_over * left_over};
}

std::span<const PlanSearch::RowLine> PlanSearch::lines_from(std::size_t first, std::size_t row) {
  Run& run = run_of(first, row);
  if (run.is_known) {
    widths_.count_looks(run.end - run.begin);
  } else {
    run = {row_lines_.size(), 0, true};
    bool stop = false;
    for (std::size_t last = first + 1; last <= pieces_ && !stop; ++last) {
      if (const auto sums = sums_of_line(first, last, row, stop)) row_lines_.push_back({last, *sums});
    }
    run.end = row_lines_.size();
  }
  return {row_lines_.data() + run.begin, run.end - run.begin};
}

std::optional<double> PlanSearch::known_size(std::size_t first, std::size_t last, std::size_t row) {
  if (disappointments_ >= patience) return closer_look(first, last, row);
  if (line_sizes_.empty() || line_size(first, last, row) < 0) return std::nullopt;
  return line_size(first, last, row);
}

double PlanSearch::closer_look(std::size_t first, std::size_t last, std::size_t row) {
  if (line_sizes_.empty()) line_sizes_.assign(task_.rows * pieces_ * pieces_, -1);
  double& size = line_size(first, last, row);
  if (size < 0) {
    widths_.count_closer_look();
    size = question_.line_size(first, last, row, task_.rows, task_.first_end);
  }
  return size;
}

}  // namespace ordinatio::inline fit
