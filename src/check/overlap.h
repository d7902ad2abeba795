// Ink of one item over ink of the same item, as it stands in a file. Of this folder alone.
#pragma once

#include <list>
#include <vector>

#include "check/contour_shape.h"
#include "check/expectation.h"

namespace ordinatio::inline check {

struct Overlap {
  double area = 0;   // mm² that even-odd and non-zero filling disagree about
  double depth = 0;  // mm that a line which is followed runs into other ink
};
/// Contours must not meet, and each must begin ink where there is none or end it where there is. Cost: the boxes of all
/// pairs; areas, by Clipper, only of what meets or lies amiss.
Overlap overlap_of(const std::vector<ContourShape>& shapes);

/// Gathers what a file shows of each item and looks at it once all of the item's layers are there.
class InkApart {
 public:
  explicit InkApart(const Expectation& expectation);
  /// Throws a Difference where the item's ink lies over itself. `area`: of what was found, mm².
  void take(const ExpectedPart& expected, const Path& found, double area, std::size_t line);

 private:
  struct Gathered {
    std::size_t layers_left = 0;
    double area = 0;          // mm², filled
    std::list<Path> earlier;  // layers, which the shapes need
    std::vector<ContourShape> shapes;
  };
  std::vector<Gathered> items_;  // in step with sheet.items
};

}  // namespace ordinatio::inline check
