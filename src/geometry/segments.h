// How the folder walks a path: one segment at a time, with its start point.
#pragma once

#include <array>

#include "geometry/geometry.h"

namespace ordinatio {

/// A Bézier of degree 1 to 3; `control` holds degree + 1 points.
struct Segment {
  std::array<Point, 4> control;
  int degree;
};

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
        if (!(here == start)) on_segment(Segment{{here, start}, 1});
        end(true);
        here = start;
        open = false;
        break;
      default: {
        Segment segment{{here}, static_cast<int>(verb)};  // line, quad, cubic: 1, 2, 3
        for (int i = 1; i <= segment.degree; ++i)
          segment.control[static_cast<std::size_t>(i)] = here = *next++;
        on_segment(segment);
      }
    }
  }
  if (open) end(false);
}

Point point_at(const Segment& segment, double t);

/// The inner points of a curve where it turns back along an axis.
struct Extrema {
  std::array<Point, 4> points;
  std::size_t count = 0;
};
Extrema extrema_of(const Segment& segment);

}  // namespace ordinatio
