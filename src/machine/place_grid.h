// Which places lie near a point. Of this folder alone.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

struct GridPlace {
  Point at;
  std::size_t stop, place;
};

/// Places in square cells, about `places_a_cell` in each.
class PlaceGrid {
 public:
  explicit PlaceGrid(const std::vector<GridPlace>& all);

  void add(const GridPlace& place) { cells_[cell_of(place.at)].push_back(place); }
  void remove(const GridPlace& place);

  /// Calls take(place) for all places, the cells about `centre` ring by ring, until reach() is no farther than what is left.
  template <class Take, class Reach>
  void look_around(Point centre, const Take& take, const Reach& reach) const {
    const long column = column_of(centre), row = row_of(centre), farthest = std::max(columns_, rows_);
    for (long ring = 0; ring <= farthest; ++ring) {
      if (ring > 0 && reach() <= static_cast<double>(ring - 1) * side_) return;
      for (long y = std::max(row - ring, 0L); y <= std::min(row + ring, rows_ - 1); ++y) {
        const bool whole = y == row - ring || y == row + ring;
        const long step = whole || ring == 0 ? 1 : 2 * ring;
        for (long x = column - ring; x <= column + ring; x += step) {
          if (x < 0 || x >= columns_) continue;
          for (const GridPlace& place : cells_[static_cast<std::size_t>(y * columns_ + x)]) take(place);
        }
      }
    }
  }

 private:
  [[nodiscard]] long column_of(Point p) const;
  [[nodiscard]] long row_of(Point p) const;
  [[nodiscard]] std::size_t cell_of(Point p) const {
    return static_cast<std::size_t>(row_of(p) * columns_ + column_of(p));
  }

  Bounds box_;
  double side_ = 1;  // mm
  long columns_ = 1, rows_ = 1;
  std::vector<std::vector<GridPlace>> cells_;
};

}  // namespace ordinatio::inline machine
