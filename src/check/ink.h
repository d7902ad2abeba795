// Of this folder alone.
#pragma once

#include <span>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// Where a contour begins, whether it closes, and how far its points lie from its start along an axis.
struct Contour {
  Point start;
  bool closed = false;
  double reach = 0;  // mm
};

/// What a path covers and how far it runs.
struct Ink {
  double area = 0;          // mm², signed, of the closed contours, exact (Green's theorem)
  double length = 0;        // mm, closing edges included; of lines and, when wanted, of curves
  double edge_squares = 0;  // mm², Σ |edge|²: tells what rounding of points may do to the area
  std::size_t edges = 0;    // lines and curves
  Bounds bounds;            // of the curves themselves
  std::vector<Contour> contours;
};

enum class Measure { area, area_and_length };
/// Lengths of curves by Gauss–Legendre, 5 points in each of 16 pieces: to 1e-12 for arcs, to 1e-4 for curves with a cusp.
Ink measure(const Path& path, Measure wanted);

/// The same contours with each curve cut into as few chords as Wang's bound allows for `tolerance` mm: the coarsest
/// drawing that a writer of lines may give.
Path chords_of(const Path& path, double tolerance);

/// The convex region as `by` moves it; `by` may turn, mirror and scale.
ConvexRegion moved(const ConvexRegion& region, const Transform& by);

// ---- intrusion.cpp ----
ClearArea moved(const ClearArea& area, const Transform& by);

// ---- ink.cpp ----
/// How far the path leaves the convex region, mm; ≤ 0 when it lies inside. Curves are judged by their control points,
/// and finely cut only where these lie outside by more than `slack`.
double excess(const Path& path, const Bounds& bounds, const ConvexRegion& region, double slack);

// ---- intrusion.cpp ----
/// The same, or how far the path comes into an obstacle, if that is more: half the true depth at the least, and the
/// whole where it crosses straight. A filled path that covers an obstacle is in it.
double excess(const Path& path, const Bounds& bounds, const ClearArea& area, double slack, bool filled);

}  // namespace ordinatio::inline check
