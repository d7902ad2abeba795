#include "fit/plan_search.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace ordinatio {
namespace {

constexpr double exactly = 1e-9;     // shares of the room that differ by less are the same
constexpr std::size_t patience = 6;  // plans that fall short before all lines are looked at: that costs more
constexpr std::size_t none = static_cast<std::size_t>(-1);
constexpr PlanCost hopeless{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};

}  // namespace

PlanSearch::PlanSearch(const PlanQuestion& question, LineWidths& widths, const Task& task, std::vector<double> room)
    : question_(question), widths_(widths), task_(task), room_(std::move(room)), pieces_(question.pieces.size()) {
  begin();
}

std::optional<PlanSearch::Plan> PlanSearch::next() {
  while (!queue_.empty() && widths_.looks() < look_limit) {
    const std::size_t index = queue_.top().second;
    queue_.pop();
    const Node node = nodes_[index];
    if (node.row < task_.rows) {
      open(node, index);
    } else if (LineEnds ends = ends_of(index); !tried_.contains(ends)) {
      return Plan{std::move(ends), node.total};
    }
  }
  return std::nullopt;
}

void PlanSearch::learn_from(const LineEnds& ends) {
  std::size_t first = 0;
  for (std::size_t row = 0; row < ends.size(); ++row) closer_look(std::exchange(first, ends[row]), ends[row], row);
  tried_.insert(ends);
  ++disappointments_;
  begin();
}

void PlanSearch::begin() {
  nodes_.clear();
  queue_ = {};
  look_ahead();
  if (ahead(0, 0) < hopeless) push({ahead(0, 0), {}, 0, 0, none});
}

void PlanSearch::look_ahead() {
  ahead_.assign((pieces_ + 1) * (task_.rows + 1), hopeless);
  ahead(pieces_, task_.rows) = {};
  for (std::size_t row = task_.rows; row-- > 0;) {
    const std::size_t from = row == 0 ? 0 : task_.first_end + row - 1, to = row == 0 ? 1 : pieces_;
    for (std::size_t first = from; first < to; ++first) {
      PlanCost& best = ahead(first, row);
      each_line(first, row, [&](std::size_t last, const PlanCost& cost) {
        const PlanCost& rest = ahead(last, row + 1);
        if (rest < hopeless) best = std::min(best, joined(cost, rest));
      });
    }
  }
}

void PlanSearch::open(const Node& node, std::size_t index) {
  each_line(node.piece, node.row, [&](std::size_t last, const PlanCost& cost) {
    const PlanCost& rest = ahead(last, node.row + 1);
    if (!(rest < hopeless)) return;
    const PlanCost so_far = joined(node.so_far, cost);
    push({joined(so_far, rest), so_far, last, node.row + 1, index});
  });
}

void PlanSearch::push(const Node& node) {
  nodes_.push_back(node);
  queue_.push({node.total, nodes_.size() - 1});
}

LineEnds PlanSearch::ends_of(std::size_t index) const {
  LineEnds ends;
  for (; nodes_[index].parent != none; index = nodes_[index].parent) ends.push_back(nodes_[index].piece);
  std::ranges::reverse(ends);
  return ends;
}

PlanCost PlanSearch::joined(const PlanCost& a, const PlanCost& b) const {
  if (task_.aim == Aim::size) return {std::max(a.first, b.first), 0};
  return {a.first + b.first, a.second + b.second};
}

std::optional<PlanCost> PlanSearch::line_cost(std::size_t first, std::size_t last, std::size_t row, bool& stop) {
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
  double share = width / room_[row];
  if (last == pieces_) share = std::max(share, task_.size / question_.height_size(task_.rows, task_.first_end, first));
  if (const auto closer = known_size(first, last, row)) share = std::max(share, task_.size / *closer);
  if (share > 1 + exactly) return std::nullopt;
  if (task_.aim == Aim::size) return PlanCost{share, 0};
  const double left_over = width > 0 ? (room_[row] - width) / room_[row] : 0;
  return PlanCost{static_cast<double>(end.penalty), left_over * left_over};
}

template <class Use>
void PlanSearch::each_line(std::size_t first, std::size_t row, Use use) {
  bool stop = false;
  for (std::size_t last = first + 1; last <= pieces_ && !stop; ++last) {
    if (const auto cost = line_cost(first, last, row, stop)) use(last, *cost);
  }
}

std::optional<double> PlanSearch::known_size(std::size_t first, std::size_t last, std::size_t row) {
  if (disappointments_ >= patience) return closer_look(first, last, row);
  if (line_sizes_.empty()) return std::nullopt;
  const auto known = line_sizes_.find({first, last, row});
  return known == line_sizes_.end() ? std::nullopt : std::optional(known->second);
}

double PlanSearch::closer_look(std::size_t first, std::size_t last, std::size_t row) {
  const auto [entry, is_new] = line_sizes_.try_emplace({first, last, row});
  if (is_new) {
    widths_.count_closer_look();
    entry->second = question_.line_size(first, last, row, task_.rows, task_.first_end);
  }
  return entry->second;
}

}  // namespace ordinatio
