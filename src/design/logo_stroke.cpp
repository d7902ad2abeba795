#include <algorithm>
#include <cmath>
#include <numbers>

#include "design/logo.h"

// Clipper's own stroke outlines square off what SVG bevels, and draw a dot by its join where SVG asks its cap; hence
// this one, by the definitions of SVG 1.1, section 11.4.

namespace ordinatio::logo {
namespace {

constexpr double full_turn = 2 * std::numbers::pi;

Point unit(Point p) { return (1 / length(p)) * p; }
Point right_of(Point direction) { return {direction.y, -direction.x}; }
Point turned(Point p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

class Outliner {
 public:
  Outliner(const Pen& pen, double tolerance) : pen_(pen), half_(pen.width / 2) {
    const double sagitta = std::min(tolerance / half_, 0.5);
    arc_step_ = 2 * std::acos(1 - sagitta);
  }

  void outline(Track track) {
    drop_repeats(track);
    const auto& nodes = track.nodes;
    if (nodes.size() == 1) return add_dot(nodes.front().at, unit(track.heading));
    std::vector<Point> directions;
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) directions.push_back(unit(nodes[i + 1].at - nodes[i].at));
    if (track.closed) directions.push_back(unit(nodes.front().at - nodes.back().at));
    for (std::size_t i = 0; i < directions.size(); ++i) {
      add_edge(nodes[i].at, nodes[(i + 1) % nodes.size()].at, directions[i]);
      if (i > 0) add_join(nodes[i], directions[i - 1], directions[i]);
    }
    if (track.closed) return add_join(nodes.front(), directions.back(), directions.front());
    add_cap(nodes.front().at, -1 * directions.front());
    add_cap(nodes.back().at, directions.back());
  }
  Polygons take() { return std::move(pieces_); }

 private:
  static void drop_repeats(Track& track) {
    auto& nodes = track.nodes;
    const auto same = [](const Node& a, const Node& b) { return a.at == b.at; };
    nodes.erase(std::unique(nodes.begin(), nodes.end(), same), nodes.end());
    while (track.closed && nodes.size() > 1 && same(nodes.front(), nodes.back())) nodes.pop_back();
    if (nodes.size() == 1) track.closed = false;
  }
  /// All pieces turn the same way, so that none takes another away.
  void add(Polygon piece) {
    if (area_of(piece) < 0) std::ranges::reverse(piece);
    pieces_.push_back(std::move(piece));
  }
  void add_edge(Point from, Point to, Point direction) {
    const Point side = half_ * right_of(direction);
    add({from + side, to + side, to - side, from - side});
  }
  /// The sector at a centre, from centre + radius through an angle.
  void add_sector(Point centre, Point radius, double angle) {
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(angle) / arc_step_)));
    Polygon sector{centre};
    for (int i = 0; i <= steps; ++i) sector.push_back(centre + turned(radius, angle * i / steps));
    add(std::move(sector));
  }
  /// Fills the gap on the outer side of a corner.
  void add_join(const Node& node, Point in, Point out) {
    const double turn = std::atan2(cross(in, out), dot(in, out));
    const double outer = turn > 0 ? half_ : -half_;
    const Point from = outer * right_of(in), to = outer * right_of(out);
    if (node.smooth || pen_.join == Join::round) return add_sector(node.at, from, turn);
    const double half_cosine = std::cos(turn / 2);  // mitre length / width = 1 / half_cosine
    if (pen_.join == Join::mitre && half_cosine * pen_.mitre_limit >= 1) {
      const Point tip = (1 / (2 * half_cosine * half_cosine)) * (from + to);
      return add({node.at, node.at + from, node.at + tip, node.at + to});
    }
    add({node.at, node.at + from, node.at + to});
  }
  void add_cap(Point end, Point outward) {
    const Point side = half_ * right_of(outward);
    if (pen_.cap == Cap::round) add_sector(end, side, full_turn / 2);
    if (pen_.cap == Cap::square) add_edge(end, end + half_ * outward, outward);
  }
  void add_dot(Point at, Point heading) {
    add_cap(at, heading);
    add_cap(at, -1 * heading);
  }

  const Pen& pen_;
  double half_;
  double arc_step_ = 1;
  Polygons pieces_;
};

}  // namespace

Result<Polygons> stroke_pieces(const Path& path, const Pen& pen, double tolerance) {
  if (!(pen.width > 0)) return Polygons{};
  auto tracks = dashed(tracks_of(path, tolerance), pen);
  if (!tracks) return tracks.fault();
  Outliner outliner(pen, tolerance);
  for (Track& track : *tracks) outliner.outline(std::move(track));
  return outliner.take();
}

}  // namespace ordinatio::logo
