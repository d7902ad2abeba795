// One part and one obstacle: the scales and shifts at which they overlap, and rows that keep them apart. Of this folder
// alone.
//
// With part P and obstacle O, both convex, the copy s·P + t overlaps O exactly if t lies inside K(s) = O − s·P, again
// convex: its edges are those of O and those of −P, in the order of their directions. To be parted is to lie beyond one
// of them.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "fit/fit.h"

namespace ordinatio::inline fit {

/// The shifts in a corner about the middle of K(s), counter-clockwise from one direction to another, less than a half
/// turn further. Wedges about one middle part the plane, whatever the scale.
struct Wedge {
  Point from, to;
};

class Parting {
 public:
  Parting(const Polygon& part, const Polygon& obstacle);

  /// The edge of K that comes nearest to parting the two, and how far they are apart there; below 0 they overlap.
  struct Gap {
    double width = -1e300;
    std::size_t edge = 0;
  };
  [[nodiscard]] Gap widest_gap(double scale, Point shift) const;

  [[nodiscard]] std::size_t edges() const { return edges_.size(); }
  [[nodiscard]] FitRow beyond(std::size_t edge) const;
  /// Rows that hold the shift on one side of a direction seen from K's middle.
  [[nodiscard]] FitRow left_of(Point direction) const;
  [[nodiscard]] FitRow right_of(Point direction) const { return left_of({-direction.x, -direction.y}); }
  /// A row that every shift in the wedge and outside K satisfies, as long as the scale is between the two: K bulges
  /// beyond the chord between the places where the wedge's sides leave it.
  [[nodiscard]] FitRow beyond_chord(const Wedge& wedge, double least, double most) const;
  /// The edges through which a ray inside the wedge may leave K, at scales between the two; a run, counted cyclically.
  struct Run {
    std::size_t first = 0, count = 0;
  };
  [[nodiscard]] Run edges_facing(const Wedge& wedge, double least, double most) const;

  /// Four directions that part the plane about K's middle, through the corners of its box.
  [[nodiscard]] std::array<Point, 4> quarters(double scale) const;
  /// From K's middle to the corner where an edge ends.
  [[nodiscard]] Point corner(std::size_t edge, double scale) const;

 private:
  struct Edge {
    Point normal;
    double obstacle = 0, part = 0;       // supports of O and −P about their middles
    Point obstacle_corner, part_corner;  // where it ends
  };
  struct Exit {
    double reach = 1e300;
    std::size_t edge = 0;
  };
  /// Where a ray from K's middle leaves K, at two scales.
  struct Exits {
    Exit least, most;
  };
  [[nodiscard]] Exits exits(Point direction, double least, double most) const;
  /// The row normal·u ≥ offset + rise·s for the shift u seen from K's middle.
  [[nodiscard]] FitRow row(Point normal, double offset, double rise) const;

  Point part_middle_, obstacle_middle_;
  std::vector<Edge> edges_;  // by direction, counter-clockwise
};

}  // namespace ordinatio::inline fit
