#include <algorithm>
#include <cmath>
#include <numbers>

#include "logo/drawing.h"

// Clipper's own stroke outlines square off what SVG bevels, and draw a dot by its join where SVG asks its cap; hence
// this one, by the definitions of SVG 1.1, section 11.4.

namespace ordinatio::inline logo {
namespace {

constexpr double half_turn = std::numbers::pi;

Point unit(Point p) { return (1 / length(p)) * p; }
Point right_of(Point direction) { return {direction.y, -direction.x}; }
Point turned(Point p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

/// Walks along a track and keeps what lies to either side of the pen. One outline a track, not one a piece: pieces that
/// share an edge would stay apart when they are welded.
class Outliner {
 public:
  Outliner(const Pen& pen, double tolerance) : pen_(pen), half_(pen.width / 2) {
    const double sagitta = std::min(tolerance / half_, 0.5);
    arc_step_ = 2 * std::acos(1 - sagitta);
  }

  void outline(Track track) {
    drop_repeats(track);
    right_.clear();
    left_.clear();
    const auto& nodes = track.nodes;
    if (nodes.size() == 1) return outline_dot(nodes.front().at, unit(track.heading));
    const std::size_t count = nodes.size(), edges = track.closed ? count : count - 1;
    std::vector<Edge> run;
    for (std::size_t i = 0; i < edges; ++i) {
      const Point step = nodes[(i + 1) % count].at - nodes[i].at;
      run.push_back({unit(step), length(step)});
    }
    if (track.closed) {
      // Where all inner corners met, what lies inside them all would be counted out.
      for (std::size_t i = 0; i < count; ++i) add_corner(nodes[i], run[(i + count - 1) % count], run[i], i > 0);
      outlines_.push_back(right_);
      outlines_.emplace_back(left_.rbegin(), left_.rend());
      return;
    }
    add_cap(nodes.front().at, -1 * run.front().direction);
    for (std::size_t i = 1; i < edges; ++i) add_corner(nodes[i], run[i - 1], run[i], true);
    add_cap(nodes.back().at, run.back().direction);
    right_.insert(right_.end(), left_.rbegin(), left_.rend());
    outlines_.push_back(right_);
  }
  Polygons take() { return std::move(outlines_); }

 private:
  struct Edge {
    Point direction;
    double length;
  };

  static void drop_repeats(Track& track) {
    auto& nodes = track.nodes;
    const auto same = [](const Node& a, const Node& b) { return a.at == b.at; };
    nodes.erase(std::unique(nodes.begin(), nodes.end(), same), nodes.end());
    while (track.closed && nodes.size() > 1 && same(nodes.front(), nodes.back())) nodes.pop_back();
    if (nodes.size() == 1) track.closed = false;
  }
  /// How far back along its edges the kite lies that both edges of a corner cover, in half widths. Its winding may be
  /// counted once only while it is inside both.
  static double inner_reach(double turn) { return std::max(std::sin(std::abs(turn)), std::tan(std::abs(turn) / 2)); }
  void add_arc(Polygon& side, Point centre, Point radius, double angle) const {
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(angle) / arc_step_)));
    for (int i = 0; i <= steps; ++i) side.push_back(centre + turned(radius, angle * i / steps));
  }
  /// The outer side takes the join; the inner side meets where both edges reach that far, or else turns on the node.
  void add_corner(const Node& node, const Edge& in, const Edge& out, bool may_meet) {
    const double turn = std::atan2(cross(in.direction, out.direction), dot(in.direction, out.direction));
    const double outwards = turn > 0 ? half_ : -half_;
    const Point from = outwards * right_of(in.direction), to = outwards * right_of(out.direction);
    Polygon& outer = turn > 0 ? right_ : left_;
    Polygon& inner = turn > 0 ? left_ : right_;
    const double half_cosine = std::cos(turn / 2);  // mitre length / width = 1 / half_cosine
    const Point tip = (1 / (2 * half_cosine * half_cosine)) * (from + to);
    if (node.smooth || pen_.join == Join::round) {
      add_arc(outer, node.at, from, turn);
    } else if (pen_.join == Join::mitre && half_cosine * pen_.mitre_limit >= 1) {
      outer.push_back(node.at + tip);
    } else {
      outer.insert(outer.end(), {node.at + from, node.at + to});
    }
    if (may_meet && half_ * inner_reach(turn) <= std::min(in.length, out.length)) {
      inner.push_back(node.at - tip);
    } else {
      inner.insert(inner.end(), {node.at - from, node.at, node.at - to});
    }
  }
  /// On the right side, where the end's outline begins; the two sides are joined in that order.
  void add_cap(Point end, Point outward) {
    const Point side = half_ * right_of(outward), beyond = half_ * outward;
    // At the start the pen looks back: its right is the track's left, from which the outline comes.
    if (pen_.cap == Cap::round) {
      add_arc(right_, end, side, half_turn);
    } else if (pen_.cap == Cap::square) {
      right_.insert(right_.end(), {end + side + beyond, end - side + beyond});
    } else {
      right_.insert(right_.end(), {end + side, end - side});
    }
  }
  void outline_dot(Point at, Point heading) {
    if (pen_.cap == Cap::butt) return;
    add_cap(at, -1 * heading);
    add_cap(at, heading);
    outlines_.push_back(right_);
  }

  const Pen& pen_;
  double half_;
  double arc_step_ = 1;
  Polygon right_, left_;
  Polygons outlines_;
};

}  // namespace

Result<Polygons> stroke_outlines(const Path& path, const Pen& pen, double tolerance) {
  if (!(pen.width > 0)) return Polygons{};
  auto tracks = dashed(tracks_of(path, tolerance), pen);
  if (!tracks.ok()) return tracks.fault();
  Outliner outliner(pen, tolerance);
  for (Track& track : *tracks) outliner.outline(std::move(track));
  return outliner.take();
}

}  // namespace ordinatio::inline logo
