#include "design/design.h"

namespace ordinatio::inline design {
namespace {

constexpr double drawing_grid = 1e-4;  // mm

Polygons drawn(const Blank& blank) {
  return difference({polygon_of(region_of(blank.outline))}, weld(blank.chips, drawing_grid), drawing_grid);
}

}  // namespace

Blank quarter_turned(const Blank& blank) {
  const Transform turn = then(quarter_turn(), shift_by({bounds_of(path_of(blank.outline)).top, 0}));
  const auto turn_all = [&turn](Polygon& polygon) {
    for (Point& p : polygon) p = turn(p);
  };
  Blank turned = blank;
  turned.turned = !blank.turned;
  turn_all(turned.outline.vertices);
  for (Polygon& chip : turned.chips) turn_all(chip);
  for (KeptClear& thing : turned.kept_clear) turn_all(thing.corners);
  return turned;
}

Path path_of(const Blank& blank) { return blank.chips.empty() ? path_of(blank.outline) : path_of(drawn(blank)); }

double area_of(const Blank& blank) {
  return blank.chips.empty() ? area_of(path_of(blank.outline)) : area_of(drawn(blank));
}

}  // namespace ordinatio::inline design
