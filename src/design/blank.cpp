#include "design/design.h"

namespace ordinatio {
namespace {

constexpr double drawing_grid = 1e-4;  // mm

Polygons drawn(const Blank& blank) {
  return difference({polygon_of(region_of(blank.outline))}, weld(blank.chips, drawing_grid), drawing_grid);
}

}  // namespace

Path path_of(const Blank& blank) { return blank.chips.empty() ? path_of(blank.outline) : path_of(drawn(blank)); }

double area_of(const Blank& blank) {
  return blank.chips.empty() ? area_of(path_of(blank.outline)) : area_of(drawn(blank));
}

}  // namespace ordinatio
