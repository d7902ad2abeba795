#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "geometry/medial.h"

namespace ordinatio::inline geometry {
namespace {

// Edges that turn from one another by less count as parallel: over a stroke as long as an em they part by 0.001 em.
constexpr double parallel = 1e-3;  // radians
// Necks this narrow are corners and edges that meet: the outline is not known well enough to tell them from nothing.
constexpr double unseen = 4;              // chord errors: what two sides may each be off, twice
constexpr double rounding_slack = 1e-9;   // of a unit vector's products
constexpr double direction_slack = 1e-6;  // radians; the products decide, and directions leave out none of theirs
constexpr double hardly_turning = 1e-6;   // sine of a corner's turn: by less, the products' slack faces both ways
constexpr double full_turn = 2 * std::numbers::pi;

/// Two outline points on the rim of one disc, opposite one another.
struct Neck {
  Point p, q;
  std::size_t p_side, q_side;  // that begin at p and q, or hold them
  [[nodiscard]] Point centre() const { return 0.5 * (p + q); }
};

/// Radians, from −π to π.
double direction_of(Point p) { return std::atan2(p.y, p.x); }

/// Whether a disc can touch the corner where `side` begins from direction `way` (not unit), which points into the region.
bool corner_faces(const Boundary& boundary, const Side& side, Point way) {
  return dot(way, boundary.sides[side.previous].along) >= -rounding_slack && dot(way, side.along) <= rounding_slack;
}

class NeckSearch {
 public:
  NeckSearch(const Boundary& boundary, const std::vector<Probe>& probes, const GaugeRules& rules, const Bounds* zone,
             std::vector<NeckPlace>& found)
      : boundary_(boundary), probes_(probes), rules_(rules), zone_(zone), found_(found) {
    for (std::size_t i = 0; i < boundary.sides.size(); ++i) {
      by_direction_.push_back({direction_of(boundary.sides[i].normal), i});
    }
    std::ranges::sort(by_direction_, {}, &Direction::angle);
    const std::optional<Bounds> near = around(zone, rules);
    for (std::size_t i = 0; i < boundary.sides.size(); ++i) {
      const Side& side = boundary.sides[i];
      // Only where the outline turns towards the region can a disc touch a corner.
      if (holds(near ? &*near : nullptr, side.from) && cross(boundary.sides[side.previous].along, side.along) < 0)
        corners_.push_back(i);
    }
  }

  void corner_to_side(std::size_t corner) {
    const Side& from = boundary_.sides[corner];
    for (const std::size_t i : faced_by(from)) {
      const Side& side = boundary_.sides[i];
      const Point way = from.from - side.from;
      const double s = dot(way, side.along);
      if (dot(way, side.normal) <= 0 || s < 0 || s > side.span) continue;
      accept({from.from, side.at(s), corner, i});
    }
  }

  void corner_to_corners(std::size_t index) {
    const Side& from = boundary_.sides[corners_[index]];
    for (std::size_t j = index + 1; j < corners_.size(); ++j) {
      const Side& to = boundary_.sides[corners_[j]];
      const Point way = to.from - from.from;
      if (!corner_faces(boundary_, from, way) || !corner_faces(boundary_, to, -1 * way)) continue;
      accept({from.from, to.from, corners_[index], corners_[j]});
    }
  }

  void parallel_sides(const Probe& probe) {
    if (!probe.ball.stopped) return;
    const Side& side = boundary_.sides[probe.side];
    const Side& facing = boundary_.sides[probe.ball.foot_side];
    if (std::abs(cross(side.along, facing.along)) > parallel || dot(side.along, facing.along) > 0) return;
    const Point p = side.at((probe.from + probe.to) / 2);
    accept({p, p + 2 * probe.ball.radius * side.normal, probe.side, probe.ball.foot_side});
  }

  void run() {
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      corner_to_side(corners_[i]);
      corner_to_corners(i);
    }
    for (const Probe& probe : probes_) parallel_sides(probe);
  }

 private:
  /// Whether a disc that touches a corner can touch a side opposite.
  [[nodiscard]] bool is_faced(std::size_t side, Point before, Point after) const {
    const Point normal = boundary_.sides[side].normal;
    return dot(normal, before) <= rounding_slack && dot(normal, after) >= -rounding_slack;
  }

  /// The sides that are faced by the corner where one begins, ascending. Their normals lie between those of the corner's two
  /// sides, turned round: a few, found by their directions.
  std::span<const std::size_t> faced_by(const Side& side) {
    const Side& previous = boundary_.sides[side.previous];
    faced_.clear();
    const auto add = [&](std::size_t i) {
      if (is_faced(i, previous.along, side.along)) faced_.push_back(i);
    };
    if (cross(previous.along, side.along) > -hardly_turning) {
      for (std::size_t i = 0; i < boundary_.sides.size(); ++i) add(i);
      return faced_;
    }
    const double first = direction_of(-1 * side.normal) - direction_slack;
    double last = direction_of(-1 * previous.normal) + direction_slack;
    if (last < first) last += full_turn;
    for (const double turn : {-full_turn, 0.0, full_turn}) {
      auto at = std::ranges::lower_bound(by_direction_, first + turn, {}, &Direction::angle);
      for (; at != by_direction_.end() && at->angle <= last + turn; ++at) add(at->side);
    }
    std::ranges::sort(faced_);
    return faced_;
  }

  void accept(const Neck& neck) {
    const double radius = length(neck.p - neck.q) / 2;
    if (2 * radius < unseen * rules_.chord_error || !holds(zone_, neck.centre()) ||
        !disc_is_empty(neck.centre(), radius) || is_tip(neck, radius) || is_touch(neck, radius)) {
      return;
    }
    const auto foot = [&](std::size_t side, Point p) {
      const Side& own = boundary_.sides[side];
      return NeckPlace::Foot{side, std::clamp(dot(p - own.from, own.along), 0.0, own.span)};
    };
    found_.push_back({{neck.centre(), 2 * radius}, foot(neck.p_side, neck.p), foot(neck.q_side, neck.q)});
  }

  /// The polygons' chords may reach into the disc that the true curves leave empty.
  [[nodiscard]] bool disc_is_empty(Point centre, double radius) {
    const double clear = radius - 3 * rules_.chord_error;
    if (clear <= 0) return true;
    const auto stays_outside = [&](std::size_t i) {
      const Side& side = boundary_.sides[i];
      const double s = std::clamp(dot(centre - side.from, side.along), 0.0, side.span);
      const Point away = centre - side.at(s);
      return dot(away, away) >= clear * clear;
    };
    // What came into the last disc mostly comes into the next one, too.
    const bool comes_first = comes_near(boundary_.rows[reaching_in_ / row_length], centre, clear) &&
                             comes_near(boundary_.boxes[reaching_in_], centre, clear);
    if (comes_first && !stays_outside(reaching_in_)) return false;
    bool empty = true;
    visit_near(boundary_, centre, clear, [&](std::size_t i) {
      empty = stays_outside(i);
      if (!empty) reaching_in_ = i;
      return empty;
    });
    return empty;
  }

  /// Whether what one side of the neck parts off is no deeper than a tip.
  [[nodiscard]] bool is_tip(const Neck& neck, double radius) const {
    if (boundary_.sides[neck.p_side].contour != boundary_.sides[neck.q_side].contour) return false;
    const double far = radius + rules_.tip(radius);
    const auto stays_near = [&](std::size_t from, std::size_t to) {
      for (std::size_t i = from; i != to; i = boundary_.sides[i].next) {
        const Point end = boundary_.sides[boundary_.sides[i].next].from;
        const Point away = end - neck.centre();
        if (dot(away, away) > far * far) return false;
      }
      return true;
    };
    return stays_near(neck.p_side, neck.q_side) || stays_near(neck.q_side, neck.p_side);
  }

  /// Whether it is narrow and to both sides soon twice as wide.
  [[nodiscard]] bool is_touch(const Neck& neck, double radius) const {
    if (2 * radius >= rules_.touch) return false;
    const Point centre = neck.centre(), apart = neck.q - neck.p;
    bool before = false, beyond = false;
    for (const Probe& probe : probes_) {
      const Ball& ball = probe.ball;
      if (ball.radius < 2 * radius) continue;
      if (length(ball.centre - centre) - ball.radius > rules_.tip_depth) continue;
      (cross(apart, ball.centre - centre) > 0 ? before : beyond) = true;
      if (before && beyond) return true;
    }
    return false;
  }

  const Boundary& boundary_;
  const std::vector<Probe>& probes_;
  const GaugeRules& rules_;
  const Bounds* zone_;
  std::vector<NeckPlace>& found_;
  struct Direction {
    double angle;
    std::size_t side;
  };
  std::vector<Direction> by_direction_;  // of all normals
  std::vector<std::size_t> faced_;       // room for what faced_by() finds
  std::size_t reaching_in_ = 0;          // the side that came into the last disc that was not empty
  std::vector<std::size_t> corners_;     // sides that begin where the outline turns towards the region
};

}  // namespace

std::vector<NeckPlace> necks_of(const Boundary& boundary, const std::vector<Probe>& probes, const GaugeRules& rules,
                                const Bounds* zone) {
  std::vector<NeckPlace> necks;
  NeckSearch(boundary, probes, rules, zone, necks).run();
  return necks;
}

}  // namespace ordinatio::inline geometry
