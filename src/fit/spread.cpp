#include "fit/spread.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline fit {
namespace {

/// The place after `least` pieces or more, and before `most`, whose reach is nearest to the wanted one.
std::size_t nearest_end(const PlanQuestion& question, std::size_t least, std::size_t most, double wanted) {
  std::size_t nearest = 0;
  double off = std::numeric_limits<double>::infinity();
  for (std::size_t end = least; end < most; ++end) {
    const double away = std::abs(question.reach(end) - wanted);
    if (question.pieces[end - 1].may_end && away < off) off = away, nearest = end;
    if (question.reach(end) > wanted && nearest != 0) break;
  }
  return nearest;
}

}  // namespace

LineEnds spread_over(const PlanQuestion& question, const std::vector<double>& room, double whole) {
  const std::size_t pieces = question.pieces.size();
  const double length = question.reach(pieces);
  LineEnds ends;
  double filled = 0;
  std::size_t last = 0;
  for (std::size_t row = 0; row + 1 < room.size(); ++row) {
    filled += room[row];
    const std::size_t end = nearest_end(question, last + 1, pieces, length * filled / whole);
    if (end == 0) break;
    ends.push_back(last = end);
  }
  for (std::size_t end = 1; end <= pieces; ++end) {
    if (question.pieces[end - 1].must_end) ends.push_back(end);
  }
  ends.push_back(pieces);
  std::ranges::sort(ends);
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  return ends;
}

std::optional<LineEnds> with_end_moved(const PlanQuestion& question, const LineEnds& ends, std::size_t line,
                                       bool forward) {
  if (question.pieces[ends[line] - 1].must_end) return std::nullopt;
  const std::size_t least = line == 0 ? 1 : ends[line - 1] + 1, most = ends[line + 1] - 1;
  for (std::size_t end = ends[line]; forward ? end < most : end > least;) {
    end = forward ? end + 1 : end - 1;
    if (!question.pieces[end - 1].may_end) continue;
    LineEnds moved = ends;
    moved[line] = end;
    return moved;
  }
  return std::nullopt;
}

}  // namespace ordinatio::inline fit
