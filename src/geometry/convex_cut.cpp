#include "geometry/convex_cut.h"

#include <algorithm>
#include <map>

namespace ordinatio::inline geometry {
namespace {

/// Contours that rounding made cross leave no clean ear: corners that stick out of it by more and more are overlooked,
/// up to a share of the area's size at which the contour is beyond repair, and the hull of the rest covers it.
constexpr double hopeless = 1e-2, more = 8;

/// Cuts ears off a contour until nothing is left.
class EarCutter {
 public:
  EarCutter(const std::vector<Point>& corners, CornerLoop loop, double slack)
      : corners_(corners), loop_(std::move(loop)), slack_(slack) {}

  std::vector<CornerLoop> cut() {
    std::size_t at = 0, refused = 0;
    double overlooked = slack_;
    while (loop_.size() > 2 && overlooked < hopeless / in_line * slack_) {
      at %= loop_.size();
      const bool straight = is_straight(at);
      if (straight || is_ear(at, overlooked)) {
        if (!straight) pieces_.push_back({before(at), loop_[at], after(at)});
        loop_.erase(loop_.begin() + static_cast<std::ptrdiff_t>(at));
        refused = 0, overlooked = slack_;
        continue;
      }
      ++at;
      if (++refused == loop_.size()) refused = 0, overlooked *= more;
    }
    if (loop_.size() > 2) pieces_.push_back(loop_);
    return std::move(pieces_);
  }

 private:
  [[nodiscard]] std::size_t before(std::size_t at) const { return loop_[(at + loop_.size() - 1) % loop_.size()]; }
  [[nodiscard]] std::size_t after(std::size_t at) const { return loop_[(at + 1) % loop_.size()]; }
  [[nodiscard]] Point corner(std::size_t index) const { return corners_[index]; }

  /// Straight on, or there and back.
  [[nodiscard]] bool is_straight(std::size_t at) const {
    const Point in = corner(loop_[at]) - corner(before(at)), out = corner(after(at)) - corner(loop_[at]);
    return std::abs(cross(in, out)) <= slack_ * std::max(length(in), length(out));
  }

  [[nodiscard]] bool is_ear(std::size_t at, double overlooked) const {
    const std::array<Point, 3> ear{corner(before(at)), corner(loop_[at]), corner(after(at))};
    if (cross(ear[1] - ear[0], ear[2] - ear[1]) <= 0) return false;
    for (std::size_t i = 0; i < loop_.size(); ++i) {
      if (enters(corner(loop_[i]), corner(after(i)), ear, overlooked)) return false;
    }
    return true;
  }

  const std::vector<Point>& corners_;
  CornerLoop loop_;
  double slack_;
  std::vector<CornerLoop> pieces_;
};

/// Merges pieces across a common edge while the whole stays convex.
class PieceMerger {
 public:
  PieceMerger(const std::vector<Point>& corners, std::vector<CornerLoop> pieces)
      : corners_(corners), pieces_(std::move(pieces)) {
    for (std::size_t piece = 0; piece < pieces_.size(); ++piece) note_edges(piece);
  }

  std::vector<CornerLoop> merge() {
    const std::map<std::pair<std::size_t, std::size_t>, std::size_t> edges = owners_;
    for (const auto& [edge, piece] : edges) {
      if (edge.first < edge.second && owners_.contains({edge.second, edge.first}))
        merge_across(edge.first, edge.second);
    }
    std::erase_if(pieces_, [](const CornerLoop& piece) { return piece.empty(); });
    return std::move(pieces_);
  }

 private:
  void note_edges(std::size_t piece) {
    const CornerLoop& loop = pieces_[piece];
    for (std::size_t i = 0; i < loop.size(); ++i) owners_[{loop[i], loop[(i + 1) % loop.size()]}] = piece;
  }

  void merge_across(std::size_t a, std::size_t b) {
    const std::size_t one = owners_.at({a, b}), other = owners_.at({b, a});
    if (one == other) return;
    // `one` from b round to a, then `other` from a round to b, without the ends twice.
    CornerLoop merged = from(pieces_[one], b), rest = from(pieces_[other], a);
    const std::size_t at_a = merged.size() - 1;
    merged.insert(merged.end(), rest.begin() + 1, rest.end() - 1);
    if (!turns_left(merged, 0) || !turns_left(merged, at_a)) return;
    pieces_[one] = std::move(merged);
    pieces_[other].clear();
    owners_.erase({a, b}), owners_.erase({b, a});
    note_edges(one);
  }

  static CornerLoop from(CornerLoop loop, std::size_t first) {
    std::rotate(loop.begin(), std::ranges::find(loop, first), loop.end());  // clang 14 cannot take the ranges form
    return loop;
  }

  /// A turn to the right by less than the slack is rounding: the hull taken at the end fills it.
  [[nodiscard]] bool turns_left(const CornerLoop& loop, std::size_t at) const {
    const Point here = corners_[loop[at]];
    const Point in = here - corners_[loop[(at + loop.size() - 1) % loop.size()]];
    const Point out = corners_[loop[(at + 1) % loop.size()]] - here;
    return cross(in, out) >= -in_line * length(in) * length(out);
  }

  const std::vector<Point>& corners_;
  std::vector<CornerLoop> pieces_;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> owners_;  // of directed edges
};

}  // namespace

bool enters(Point p, Point q, const std::array<Point, 3>& triangle, double slack) {
  // The part of the segment inside each edge by more than the slack (Cyrus and Beck 1978).
  double from = 0, to = 1;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point a = triangle[i], along = triangle[(i + 1) % 3] - a;
    const double span = length(along);
    const double at_p = cross(along, p - a) / span - slack, at_q = cross(along, q - a) / span - slack;
    if (at_p <= 0 && at_q <= 0) return false;
    if (at_p < 0) from = std::max(from, at_p / (at_p - at_q));
    if (at_q < 0) to = std::min(to, at_p / (at_p - at_q));
  }
  return from < to;
}

std::vector<ConvexHull> convex_pieces(const Polygons& area) {
  if (area.size() == 1 && is_convex(area.front())) return {hull_of(area.front())};
  CornerLoops loops = loops_of(area);
  tie_holes(loops);
  const double slack = in_line * extent_of(loops.corners);
  std::vector<ConvexHull> hulls;
  for (const CornerLoop& loop : loops.loops) {
    std::vector<CornerLoop> ears = EarCutter(loops.corners, loop, slack).cut();
    for (const CornerLoop& piece : PieceMerger(loops.corners, std::move(ears)).merge()) {
      std::vector<Point> points;
      for (const std::size_t i : piece) points.push_back(loops.corners[i]);
      hulls.push_back(hull_of(std::move(points)));
    }
  }
  std::erase_if(hulls, [](const ConvexHull& hull) { return hull.vertices.size() < 3; });
  return hulls;
}

}  // namespace ordinatio::inline geometry
