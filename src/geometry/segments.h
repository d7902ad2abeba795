// How the folder walks a path: one segment at a time, with its start point. Of this folder alone.
#pragma once

#include <array>

#include "geometry/geometry.h"

namespace ordinatio::inline geometry {

/// A Bézier of degree 1 to 3; `control` holds degree + 1 points.
struct Segment {
  std::array<Point, 4> control;
  int degree;
};
/// The degree is known where this is compiled: to copy one to three points by a loop costs more than what is done with them.
template <int degree>
Segment segment_from(Point start, const Point* next) {
  if constexpr (degree == 1) return {{start, next[0], {}, {}}, 1};
  if constexpr (degree == 2) return {{start, next[0], next[1], {}}, 2};
  if constexpr (degree == 3) return {{start, next[0], next[1], next[2]}, 3};
}

/// Calls begin(point), segment(Segment) for each line or curve, and end(closed) for every contour of the
/// path. The closing line of a closed contour is a segment like any other.
template <class Begin, class OnSegment, class End>
void walk(const Path& path, Begin begin, OnSegment on_segment, End end) {
  const Point* next = path.points().data();
  Point start, here;
  bool open = false;
  const auto pass = [&]<int degree>() {
    on_segment(segment_from<degree>(here, next));
    next += degree;
    here = next[-1];
  };
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        if (open) end(false);
        start = here = *next++;
        begin(start);
        open = true;
        break;
      case Path::Verb::close:
        if (!(here == start)) on_segment(segment_from<1>(here, &start));
        end(true);
        here = start;
        open = false;
        break;
      case Path::Verb::line:
        pass.template operator()<1>();
        break;
      case Path::Verb::quad:
        pass.template operator()<2>();
        break;
      case Path::Verb::cubic:
        pass.template operator()<3>();
        break;
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
