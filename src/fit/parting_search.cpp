#include "fit/parting_search.h"

#include <algorithm>

namespace ordinatio::inline fit {
namespace {

constexpr double overlaps = 1e-12;    // share of the region: what overlaps by less is parted, for rows hold to 1e-13
constexpr std::size_t few_edges = 3;  // of a wedge: they are tried one by one
constexpr int split_limit = 16;       // of one wedge: halving 2^16 edges; then the rest are tried one by one
/// Programmes solved for one aim. Reached only by contrived cases (see the tests): the best place found by then is
/// taken, which is sound, though a larger one may be left.
constexpr std::size_t node_limit = 200'000;

/// How far a pair has been decided.
struct Decision {
  std::size_t pair;
  Wedge wedge;
  int splits = 0;
  bool is_settled = false;  // beyond one edge
};
using Decisions = std::vector<Decision>;  // one a pair

/// What has been decided so far, and the best that could come of it.
struct PartingNode {
  PartedPlace bound;
  std::vector<FitRow> rows;  // those of earlier decisions too: the bound solves them
  Decisions decisions;
  std::size_t next = 0;  // pair to decide
  std::size_t serial = 0;
};

/// For a heap: the node worth most on top; of equals the latest, which is the most decided.
bool is_worth_less(const PartingNode& a, const PartingNode& b) {
  return a.bound.worth < b.bound.worth || (a.bound.worth == b.bound.worth && a.serial < b.serial);
}

class PartingSearch {
 public:
  PartingSearch(PartingPairs& pairs, const PartingAim& aim, double least, PartingCost& cost, std::size_t allowed)
      : pairs_(pairs), aim_(aim), least_(least), cost_(cost), stop_(std::min(cost.nodes + node_limit, allowed)) {}

  std::optional<PartedPlace> run() {
    consider({}, nullptr);
    while (!open_.empty()) {
      std::ranges::pop_heap(open_, is_worth_less);
      const PartingNode node = std::move(open_.back());
      open_.pop_back();
      if (node.bound.worth <= least_worth()) break;
      if (cost_.nodes > stop_ && has_dived_) {
        cost_.limit_reached = true;
        break;
      }
      dive(node);
      has_dived_ = true;
      branch(node);
    }
    return best_;
  }

 private:
  [[nodiscard]] double least_worth() const { return best_ ? best_->worth + aim_.tie : least_; }

  /// The pair that overlaps most at a place, or none.
  std::optional<std::size_t> deepest_pair(const PartedPlace& at, const Decisions& decisions) {
    double deepest = -overlaps;
    std::optional<std::size_t> found;
    for (std::size_t pair = 0; pair < pairs_.size(); ++pair) {
      if (!pairs_.may_overlap(pair, at.scale, at.shift)) continue;
      const auto decision = std::ranges::find(decisions, pair, &Decision::pair);
      if (decision != decisions.end() && decision->is_settled) continue;
      const double gap = pairs_[pair].widest_gap(at.scale, at.shift).width;
      if (gap < deepest) deepest = gap, found = pair;
    }
    return found;
  }

  /// Solves a node's programme: what comes of it is a place, or worth looking into further, or worth nothing.
  void consider(PartingNode node, const PartingNode* parent) {
    ++cost_.nodes;
    const auto bound = aim_.best(node.rows, parent ? parent->rows.size() : 0, parent ? &parent->bound : nullptr);
    if (!bound || bound->worth <= least_worth()) return;
    const auto pair = deepest_pair(*bound, node.decisions);
    if (!pair) {
      best_ = *bound;
      return;
    }
    node.bound = *bound;
    node.next = *pair;
    node.serial = ++serial_;
    open_.push_back(std::move(node));
    std::ranges::push_heap(open_, is_worth_less);
  }

  /// A quick way to some place: each time the deepest overlap is parted where that takes least.
  void dive(PartingNode node) {
    for (std::optional<std::size_t> pair = node.next; pair; pair = deepest_pair(node.bound, node.decisions)) {
      const Parting& parting = pairs_[*pair];
      const std::size_t solved = node.rows.size();
      node.rows.push_back(parting.beyond(parting.widest_gap(node.bound.scale, node.bound.shift).edge));
      decide(node.decisions, {*pair, {}, 0, true});
      ++cost_.nodes;
      const auto next = aim_.best(node.rows, solved, &node.bound);
      if (!next || next->worth <= least_worth()) return;
      node.bound = *next;
    }
    best_ = node.bound;
  }

  void branch(const PartingNode& node) {
    const Parting& parting = pairs_[node.next];
    const auto decision = std::ranges::find(node.decisions, node.next, &Decision::pair);
    if (decision == node.decisions.end()) {
      const std::array<Point, 4> corners = parting.quarters(node.bound.scale);
      for (std::size_t i = 0; i < 4; ++i) consider_wedge(node, {corners[i], corners[(i + 1) % 4]}, 0);
      return;
    }
    const auto [least, most] = scales(node);
    const Parting::Run facing = parting.edges_facing(decision->wedge, least, most);
    if (facing.count <= few_edges || decision->splits >= split_limit) {
      for (std::size_t i = 0; i < facing.count; ++i) consider_edge(node, (facing.first + i) % parting.edges());
      return;
    }
    const Point middle = split_direction(parting, decision->wedge, facing, most);
    consider_wedge(node, {decision->wedge.from, middle}, decision->splits + 1);
    consider_wedge(node, {middle, decision->wedge.to}, decision->splits + 1);
  }

  /// Where the best place yet to be found may have its scale.
  [[nodiscard]] std::pair<double, double> scales(const PartingNode& node) const {
    return {aim_.seeks_scale ? std::min(least_worth(), node.bound.scale) : node.bound.scale, node.bound.scale};
  }

  /// Through a corner of K in the middle of the edges that face the wedge, if it is seen in the wedge.
  static Point split_direction(const Parting& parting, const Wedge& wedge, const Parting::Run& facing, double scale) {
    const Point corner = parting.corner((facing.first + (facing.count - 1) / 2) % parting.edges(), scale);
    if (cross(wedge.from, corner) > 0 && cross(corner, wedge.to) > 0) return corner;
    return 1 / length(wedge.from) * wedge.from + 1 / length(wedge.to) * wedge.to;
  }

  void consider_wedge(const PartingNode& node, const Wedge& wedge, int splits) {
    const Parting& parting = pairs_[node.next];
    const auto [least, most] = scales(node);
    PartingNode child = child_of(node, 3);
    child.rows.push_back(parting.beyond_chord(wedge, least, most));
    child.rows.push_back(parting.left_of(wedge.from));
    child.rows.push_back(parting.right_of(wedge.to));
    decide(child.decisions, {node.next, wedge, splits, false});
    consider(std::move(child), &node);
  }

  void consider_edge(const PartingNode& node, std::size_t edge) {
    PartingNode child = child_of(node, 1);
    child.rows.push_back(pairs_[node.next].beyond(edge));
    decide(child.decisions, {node.next, {}, 0, true});
    consider(std::move(child), &node);
  }

  /// With room for so many rows more, and a decision.
  static PartingNode child_of(const PartingNode& node, std::size_t rows) {
    PartingNode child;
    child.rows.reserve(node.rows.size() + rows);
    child.rows = node.rows;
    child.decisions.reserve(node.decisions.size() + 1);
    child.decisions = node.decisions;
    return child;
  }

  static void decide(Decisions& decisions, const Decision& decision) {
    const auto earlier = std::ranges::find(decisions, decision.pair, &Decision::pair);
    if (earlier != decisions.end()) {
      *earlier = decision;
    } else {
      decisions.push_back(decision);
    }
  }

  PartingPairs& pairs_;
  const PartingAim& aim_;
  double least_;
  PartingCost& cost_;
  std::size_t stop_, serial_ = 0;
  bool has_dived_ = false;  // a limit leaves time for that: it is the quick way to a place
  std::vector<PartingNode> open_;
  std::optional<PartedPlace> best_;
};

Bounds box_of(const ConvexHull& hull) {
  Bounds box;
  for (const Point p : hull.vertices) box.add(p);
  return box;
}

}  // namespace

PartingPairs::PartingPairs(std::vector<ConvexHull> parts, std::vector<ConvexHull> obstacles, std::size_t allowed)
    : parts_(std::move(parts)),
      obstacles_(std::move(obstacles)),
      partings_(parts_.size() * obstacles_.size()),
      allowed_(allowed) {
  for (const ConvexHull& part : parts_) part_boxes_.push_back(box_of(part));
  for (const ConvexHull& obstacle : obstacles_) obstacle_boxes_.push_back(box_of(obstacle));
}

bool PartingPairs::may_overlap(std::size_t pair, double scale, Point shift) const {
  const Bounds &part = part_boxes_[pair % parts_.size()], &obstacle = obstacle_boxes_[pair / parts_.size()];
  return scale * part.left + shift.x < obstacle.right && scale * part.right + shift.x > obstacle.left &&
         scale * part.bottom + shift.y < obstacle.top && scale * part.top + shift.y > obstacle.bottom;
}

const Parting& PartingPairs::operator[](std::size_t pair) {
  std::unique_ptr<Parting>& parting = partings_[pair];
  if (!parting) {
    parting =
        std::make_unique<Parting>(parts_[pair % parts_.size()].vertices, obstacles_[pair / parts_.size()].vertices);
  }
  return *parting;
}

std::optional<PartedPlace> best_parted(PartingPairs& pairs, const PartingAim& aim, double least, PartingCost& cost) {
  return PartingSearch(pairs, aim, least, cost, pairs.allowed()).run();
}

}  // namespace ordinatio::inline fit
