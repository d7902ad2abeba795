// The discs that touch an outline from its left side and hold none of it: centres of them all are its medial axis.
// Of this folder alone.
#pragma once

#include <algorithm>
#include <cmath>

#include "geometry/thickness.h"

namespace ordinatio::inline geometry {

/// One edge of the outline; the region to be measured lies on its left.
struct Side {
  Point from, along, normal;  // along, normal: unit; normal points into the region
  double span = 0;
  std::size_t previous = 0, next = 0;  // of the same contour
  std::size_t contour = 0;
  [[nodiscard]] Point at(double s) const { return from + s * along; }
  [[nodiscard]] Point middle() const { return at(span / 2); }
};

/// A round box: a circle around a side, or around a row of sides that follow one another.
struct RoundBox {
  Point middle;
  double reach = 0;
};
inline constexpr std::size_t row_length = 8;  // sides to a row: near the best for outlines of 100 to 1,000 sides

struct Boundary {
  std::vector<Side> sides;
  std::vector<RoundBox> boxes;      // of each side
  std::vector<RoundBox> rows;       // of sides 0–7, 8–15, …
  std::vector<std::size_t> firsts;  // of each contour
  std::vector<double> areas;        // of each contour, signed
  double width = 0;                 // no disc of interest is larger
};

/// `reversed`: the region on the other side of the outline. Edges shorter than `least` are passed over.
Boundary boundary_of(const Polygons& polygons, double least, bool reversed);

inline bool comes_near(const RoundBox& box, Point centre, double radius) {
  const Point away = box.middle - centre;
  const double far = radius + box.reach;
  return dot(away, away) < far * far;
}

/// Calls visit(index) for the sides that may come into a disc; it may make the disc smaller, and stops all by returning
/// false.
template <class Visit>
void visit_near(const Boundary& boundary, const Point& centre, const double& radius, Visit visit) {
  for (std::size_t row = 0; row < boundary.rows.size(); ++row) {
    if (!comes_near(boundary.rows[row], centre, radius)) continue;
    const std::size_t first = row * row_length, last = std::min(first + row_length, boundary.sides.size());
    for (std::size_t i = first; i < last; ++i) {
      if (comes_near(boundary.boxes[i], centre, radius) && !visit(i)) return;
    }
  }
}

/// The largest disc that touches the outline at a point and lies in the region.
struct Ball {
  Point centre;
  double radius = 0;
  bool stopped = false;       // else it is as large as the boundary is wide, for want of anything opposite
  std::size_t foot_side = 0;  // the side that stops it from growing
  double foot = 0;            // where on that side
};
/// Exact on the polygon. `hint`: a side that may well stop it, which saves looking at most others.
Ball ball_at(const Boundary& boundary, std::size_t side, double s, std::size_t hint = 0);

/// A ball and the stretch of a side that it stands for.
struct Probe {
  Ball ball;
  std::size_t side = 0;
  double from = 0, to = 0;  // along the side; the ball touches midway
};
/// Balls all along the outline, not farther apart than rules.step, and closer where the region is thin. With a zone,
/// those in it alone.
std::vector<Probe> probes_of(const Boundary& boundary, const GaugeRules& rules, const Bounds* zone);

/// A neck of the region on the boundary's left, and where it stands on the outline: on two sides, opposite one another.
struct NeckPlace {
  struct Foot {
    std::size_t side = 0;
    double along = 0;  // from the side's beginning
  };
  Gauge gauge;
  Foot p, q;
};

// ---- necks.cpp ----
std::vector<NeckPlace> necks_of(const Boundary& boundary, const std::vector<Probe>& probes, const GaugeRules& rules,
                                const Bounds* zone);

// ---- tapers.cpp ----
/// Its tapering ends.
void append_tapers(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& probes,
                   const GaugeRules& rules, const Bounds* zone);

// ---- largest_discs.cpp ----
/// The largest ball inside each counter-clockwise contour.
std::vector<Probe> largest_discs(const Boundary& boundary, const std::vector<Probe>& probes);

// ---- slits.cpp ----
/// Of a gap: the necks that are the narrowest of their slit, with how far that goes, and holes that are seams. Ascending.
/// `probes`: of the boundary, in its order. `necks`: ascending by width. `discs`: the largest of each hole.
std::vector<Slit> slits_of(const Boundary& boundary, const std::vector<Probe>& probes,
                           const std::vector<NeckPlace>& necks, const std::vector<Probe>& discs,
                           const GaugeRules& rules);

// ---- thickness.cpp ----
/// The outline that matters for what is centred in a zone: what is wider than twice this reach is not found there.
std::optional<Bounds> around(const Bounds* zone, const GaugeRules& rules);

inline bool holds(const Bounds* zone, Point p) {
  return zone == nullptr || (p.x >= zone->left && p.x <= zone->right && p.y >= zone->bottom && p.y <= zone->top);
}

}  // namespace ordinatio::inline geometry
