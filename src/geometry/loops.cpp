#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "geometry/convex_cut.h"

namespace ordinatio::inline geometry {
namespace {

using DirectedEdge = std::pair<std::size_t, std::size_t>;

bool is_before(Point a, Point b) { return a.x < b.x || (a.x == b.x && a.y < b.y); }

/// Corners sorted, each place once.
std::vector<Point> corners_of(const Polygons& area) {
  std::vector<Point> corners;
  for (const Polygon& polygon : area) corners.insert(corners.end(), polygon.begin(), polygon.end());
  std::ranges::sort(corners, is_before);
  corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
  return corners;
}

/// An edge from corner to corner that lie on it: then edges along one another are the same edges, and where a contour
/// touches another both have a corner.
std::vector<std::size_t> corners_along(const std::vector<Point>& corners, std::size_t from, std::size_t to,
                                       double slack) {
  const Point a = corners[from], along = corners[to] - a;
  const double span = length(along);
  std::vector<std::pair<double, std::size_t>> on_edge{{0, from}, {span, to}};
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Point p = corners[i] - a;
    if (i == from || i == to || std::abs(cross(along, p)) > slack * span) continue;
    if (const double at = dot(along, p) / span; at > 0 && at < span) on_edge.emplace_back(at, i);
  }
  std::ranges::sort(on_edge);
  std::vector<std::size_t> indices;
  indices.reserve(on_edge.size());
  for (const auto& [at, index] : on_edge) indices.push_back(index);
  return indices;
}

/// What is left of all edges when those that run both ways cancel.
std::vector<DirectedEdge> edges_of(const Polygons& area, const std::vector<Point>& corners) {
  const auto index = [&corners](Point p) {
    return static_cast<std::size_t>(std::ranges::lower_bound(corners, p, is_before) - corners.begin());
  };
  const double slack = in_line * extent_of(corners);
  std::map<DirectedEdge, int> count;
  for (const Polygon& polygon : area) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const std::size_t from = index(polygon[i]), to = index(polygon[(i + 1) % polygon.size()]);
      if (from == to) continue;
      const std::vector<std::size_t> along = corners_along(corners, from, to, slack);
      for (std::size_t k = 1; k < along.size(); ++k) {
        int& back = count[{along[k], along[k - 1]}];
        back > 0 ? --back : ++count[{along[k - 1], along[k]}];
      }
    }
  }
  std::vector<DirectedEdge> edges;
  for (const auto& [edge, times] : count) edges.insert(edges.end(), static_cast<std::size_t>(times), edge);
  return edges;
}

/// Follows edges round. Where several leave a corner, the first clockwise from where we came is taken: it bounds the
/// same patch of inside.
class LoopTracer {
 public:
  LoopTracer(const std::vector<Point>& corners, std::vector<DirectedEdge> edges)
      : corners_(corners), edges_(std::move(edges)), used_(edges_.size(), false) {}

  std::vector<CornerLoop> trace() {
    std::vector<CornerLoop> loops;
    for (std::size_t first = 0; first < edges_.size(); ++first) {
      if (!used_[first]) loops.push_back(trace_from(first));
    }
    return loops;
  }

 private:
  CornerLoop trace_from(std::size_t first) {
    CornerLoop loop;
    for (std::size_t at = first; !used_[at]; at = next_after(at)) {
      used_[at] = true;
      loop.push_back(edges_[at].first);
    }
    return loop;
  }

  /// A used edge ends the loop: the first one again, or none is left.
  [[nodiscard]] std::size_t next_after(std::size_t at) const {
    const auto [from, here] = edges_[at];
    const auto begin = std::ranges::lower_bound(edges_, DirectedEdge{here, 0});
    std::size_t best = at;
    double least = 1e300;
    for (auto edge = begin; edge != edges_.end() && edge->first == here; ++edge) {
      const auto index = static_cast<std::size_t>(edge - edges_.begin());
      const double turn = clockwise(corners_[from] - corners_[here], corners_[edge->second] - corners_[here]);
      if (turn < least) least = turn, best = index;
    }
    return best;
  }

  /// The angle from a clockwise to b. Edges that go back over one another enclose nothing between them.
  static double clockwise(Point a, Point b) {
    const double angle = -std::atan2(cross(a, b), dot(a, b));
    return angle > -in_line ? std::max(angle, 0.0) : angle + 2 * std::numbers::pi;
  }

  const std::vector<Point>& corners_;
  std::vector<DirectedEdge> edges_;
  std::vector<bool> used_;
};

}  // namespace

CornerLoops loops_of(const Polygons& area) {
  CornerLoops result{corners_of(area), {}};
  const double extent = extent_of(result.corners);
  for (CornerLoop& loop : LoopTracer(result.corners, edges_of(area, result.corners)).trace()) {
    const bool has_area = std::abs(area_of(result.corners, loop)) > in_line * extent * extent;
    if (has_area) result.loops.push_back(std::move(loop));
  }
  return result;
}

double area_of(const std::vector<Point>& corners, const CornerLoop& loop) {
  Polygon polygon;
  for (const std::size_t i : loop) polygon.push_back(corners[i]);
  return area_of(polygon);
}

double extent_of(const std::vector<Point>& corners) {
  Bounds bounds;
  for (const Point p : corners) bounds.add(p);
  return std::max(bounds.width(), bounds.height());
}

}  // namespace ordinatio::inline geometry
