// How the folder walks a path: one segment at a time, with its start point. Of this folder alone.
#pragma once

#include <algorithm>
#include <array>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// A Bézier of degree 1 to 3; `control` holds degree + 1 points.
struct Segment {
  std::array<Point, 4> control;
  int degree;
};
inline Segment segment_from(Point start, const Point* next, int degree) {
  Segment segment{{start, {}, {}, {}}, degree};
  std::copy_n(next, degree, segment.control.begin() + 1);
  return segment;
}

/// Calls begin(point), segment(Segment) for each line or curve, and end(closed) for every contour of the
/// path. The closing line of a closed contour is a segment like any other.
template <class Begin, class OnSegment, class End>
void walk(const Path& path, Begin begin, OnSegment on_segment, End end) {
  const Point* next = path.points().data();
  Point start, here;
  bool open = false;
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        if (open) end(false);
        start = here = *next++;
        begin(start);
        open = true;
        break;
      case Path::Verb::close:
        if (!(here == start)) on_segment(segment_from(here, &start, 1));
        end(true);
        here = start;
        open = false;
        break;
      default: {
        const int degree = static_cast<int>(verb);  // line, quad, cubic: 1, 2, 3
        on_segment(segment_from(here, next, degree));
        next += degree;
        here = next[-1];
      }
    }
  }
  if (open) end(false);
}

// ---- path.cpp ----
Point point_at(const Segment& segment, double t);
/// The curve's derivative there.
Point slope_at(const Segment& segment, double t);

/// The inner points of a curve where it turns back along an axis.
struct Extrema {
  std::array<Point, 4> points;
  std::size_t count = 0;
};
Extrema extrema_of(const Segment& segment);

}  // namespace ordinatio::inline geometry
