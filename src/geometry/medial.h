// The discs that touch an outline from its left side and hold none of it: centres of them all are its medial axis.
// Of this folder alone.
#pragma once

#include <cmath>
#include <limits>

#include "geometry/thickness.h"

namespace ordinatio {

/// One edge of the outline; the region to be measured lies on its left.
struct Side {
  Point from, along, normal;  // along, normal: unit; normal points into the region
  double span = 0;
  std::size_t previous = 0, next = 0;  // of the same contour
  std::size_t contour = 0;
  [[nodiscard]] Point at(double s) const { return from + s * along; }
  [[nodiscard]] Point middle() const { return at(span / 2); }
};

/// Everything a probe must look at, in few cache lines.
struct SideBox {
  Point middle;
  double reach;  // half the span
};

struct Boundary {
  std::vector<Side> sides;
  std::vector<SideBox> boxes;
  std::vector<std::size_t> firsts;  // of each contour
  std::vector<double> areas;        // of each contour, signed
  double width = 0;                 // no disc of interest is larger
};

/// `reversed`: the region on the other side of the outline. Edges shorter than `least` are passed over.
Boundary boundary_of(const Polygons& polygons, double least, bool reversed);

/// The largest disc that touches the outline at a point and lies in the region.
struct Ball {
  Point centre;
  double radius = std::numeric_limits<double>::infinity();
  std::size_t foot_side = 0;  // the side that stops it from growing
  double foot = 0;            // where on that side
};
/// Exact on the polygon. Radius infinite when nothing stops it.
Ball ball_at(const Boundary& boundary, std::size_t side, double s);

/// A ball and the stretch of a side that it stands for.
struct Probe {
  Ball ball;
  std::size_t side = 0;
  double from = 0, to = 0;  // along the side; the ball touches midway
};
/// Balls all along the outline, not farther apart than rules.step, and closer where the region is thin. With a zone,
/// those in it alone.
std::vector<Probe> probes_of(const Boundary& boundary, const GaugeRules& rules, const Bounds* zone);

/// Necks of the region on the boundary's left.
void append_necks(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& probes,
                  const GaugeRules& rules, const Bounds* zone);
/// Its tapering ends.
void append_tapers(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& probes,
                   const GaugeRules& rules, const Bounds* zone);
/// The largest disc inside each counter-clockwise contour.
void append_largest(std::vector<Gauge>& gauges, const Boundary& boundary, const std::vector<Probe>& probes,
                    const Bounds* zone);

inline bool holds(const Bounds* zone, Point p) {
  return zone == nullptr || (p.x >= zone->left && p.x <= zone->right && p.y >= zone->bottom && p.y <= zone->top);
}

}  // namespace ordinatio
