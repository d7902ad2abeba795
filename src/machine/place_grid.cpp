#include "machine/place_grid.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline machine {
namespace {

constexpr double places_a_cell = 2;
constexpr double least_cell = 1e-3;  // mm: places of one point all lie in one cell

long within(double cell, long count) { return std::clamp(static_cast<long>(std::floor(cell)), 0L, count - 1); }

}  // namespace

PlaceGrid::PlaceGrid(const std::vector<GridPlace>& all) {
  for (const GridPlace& place : all) box_.add(place.at);
  const double cells = std::max(1.0, static_cast<double>(all.size()) / places_a_cell);
  const double longer = std::max(box_.width(), box_.height()), shorter = std::min(box_.width(), box_.height());
  // Of places in a line only the longer side is parted.
  side_ = std::max({std::sqrt(longer * shorter / cells), longer / cells, least_cell});
  columns_ = static_cast<long>(box_.width() / side_) + 1;
  rows_ = static_cast<long>(box_.height() / side_) + 1;
  cells_.resize(static_cast<std::size_t>(columns_ * rows_));
}

long PlaceGrid::column_of(Point p) const { return within((p.x - box_.left) / side_, columns_); }
long PlaceGrid::row_of(Point p) const { return within((p.y - box_.bottom) / side_, rows_); }

void PlaceGrid::remove(const GridPlace& place) {
  std::erase_if(cells_[cell_of(place.at)],
                [&](const GridPlace& other) { return other.stop == place.stop && other.place == place.place; });
}

}  // namespace ordinatio::inline machine
