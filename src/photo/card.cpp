#include "photo/card.h"

namespace ordinatio::inline photo {
namespace {

/// A quarter of a circle about `centre` from `from` to `to`, both at its radius: within 2.8e-4 of it as one cubic.
void arc_to(Path& path, Point centre, Point from, Point to) {
  constexpr double handle = 0.5522847498307936;  // 4/3 · (√2 − 1)
  path.cubic_to(from + handle * (to - centre), to + handle * (from - centre), to);
}

Path circle(Point centre, double radius) {
  const std::array<Point, 4> ends{centre + Point{radius, 0}, centre + Point{0, radius}, centre - Point{radius, 0},
                                  centre - Point{0, radius}};
  Path path;
  path.move_to(ends[0]);
  for (std::size_t i = 0; i < 4; ++i) arc_to(path, centre, ends[i], ends[(i + 1) % 4]);
  path.close();
  return path;
}

void add_quarter(Path& path, Point centre, Point first, Point second) {
  path.move_to(centre);
  path.line_to(centre + first);
  arc_to(path, centre, centre + first, centre + second);
  path.close();
}

}  // namespace

Path mark_ink(std::size_t mark) {
  const Point centre = mark_places.at(mark);
  const Point right{disc_radius, 0}, up{0, disc_radius}, left{-disc_radius, 0}, down{0, -disc_radius};
  Path ink = circle(centre, mark_radius);
  ink.append(reversed(circle(centre, disc_radius)));
  add_quarter(ink, centre, mark == 0 ? up : right, mark == 0 ? left : up);
  add_quarter(ink, centre, mark == 0 ? down : left, mark == 0 ? right : down);
  return ink;
}

bool is_black_in_mark(std::size_t mark, Point from_centre) {
  if (length(from_centre) >= disc_radius) return true;
  return (from_centre.x * from_centre.y > 0) == (mark != 0);
}

}  // namespace ordinatio::inline photo
