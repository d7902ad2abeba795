// Of this folder alone.
#pragma once

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// A cubic Bézier; a quadratic one is raised to it, which changes no point of it.
struct Cubic {
  Point a, b, c, d;
  [[nodiscard]] Point at(double t) const;
};
Cubic raised(Point start, Point control, Point end);

/// ½∮(x dy − y dx) along the curve about the origin, exact.
double swept_area(const Cubic& cubic);
double arc_length(const Cubic& cubic);
/// Adds the curve's extreme points, its start left out.
void add_bounds(Bounds& bounds, const Cubic& cubic);
/// Wang's bound (1984): ⌈√(6·max|Δ²P| / 8ε)⌉ equal steps keep the chords within `tolerance`.
int chord_count(const Cubic& cubic, double tolerance);

/// Calls on_move(p), on_line(from, to), on_cubic(cubic) and on_end(start, last, closed) along a path. The edge that
/// closes a contour is left to on_end.
template <class OnMove, class OnLine, class OnCubic, class OnEnd>
void follow(const Path& path, OnMove on_move, OnLine on_line, OnCubic on_cubic, OnEnd on_end) {
  const Point* next = path.points().data();
  Point start, here;
  bool open = false;
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        if (open) on_end(start, here, false);
        start = here = *next++;
        open = true;
        on_move(here);
        break;
      case Path::Verb::line:
        on_line(here, *next);
        here = *next++;
        break;
      case Path::Verb::quad:
        on_cubic(raised(here, next[0], next[1]));
        here = next[1], next += 2;
        break;
      case Path::Verb::cubic:
        on_cubic(Cubic{here, next[0], next[1], next[2]});
        here = next[2], next += 3;
        break;
      case Path::Verb::close:
        on_end(start, here, true);
        here = start, open = false;
    }
  }
  if (open) on_end(start, here, false);
}

}  // namespace ordinatio::inline check
