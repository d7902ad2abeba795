// Contours as a reader of a file has them: which of them meet, and how often they go round a point.
// Of this folder alone.
#pragma once

#include <array>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// A line or a curve between its ends; `box` holds its control points, and so all of it.
struct ContourPiece {
  std::array<Point, 4> control;
  int degree = 1;
  Bounds box;
  [[nodiscard]] Point start() const { return control.front(); }
  [[nodiscard]] Point end() const { return control[static_cast<std::size_t>(degree)]; }
};

/// A contour of a path, which must outlive it. Its pieces are made when they are first asked for: most contours lie alone.
class ContourShape {
 public:
  struct Pieces {
    std::vector<ContourPiece> list;  // with the one that closes it
    std::vector<Bounds> rows;        // around pieces 0–7, 8–15, …
  };

  Bounds box;  // of its control points
  Point start;
  bool closed = false, filled = false;
  bool left_turning = true;  // what it encloses lies on its left, judged by its control points
  std::size_t count = 0;     // lines and curves, the closing one left out

  ContourShape(const Path& path, std::size_t verb, std::size_t point) : path_(&path), verb_(verb), point_(point) {}
  [[nodiscard]] const Pieces& pieces() const;

 private:
  const Path* path_;
  std::size_t verb_, point_;  // where it begins
  mutable Pieces pieces_;
};
inline constexpr std::size_t pieces_in_row = 8;  // near the best for outlines of 20 to 1,000 pieces

/// Adds a path's contours; those of a single point are left out.
void append_shapes(std::vector<ContourShape>& shapes, const Path& path, bool filled);

/// Whether two contours cross or touch one another. What is too near to be told apart by halving counts as touching.
bool meet(const ContourShape& a, const ContourShape& b);

/// How often a closed contour goes round a point that does not lie on it.
int turns_around(const ContourShape& shape, Point p);

/// The contour in chords within `tolerance` mm.
Polygon chords_of(const ContourShape& shape, double tolerance);

}  // namespace ordinatio::inline check
