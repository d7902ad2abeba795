// The scan lines of filled paths. Of this folder alone.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "geometry/geometry.h"

namespace ordinatio::inline machine {

/// Ink along a scan line, mm from the bed's left edge.
struct Span {
  double from = 0, to = 0;
};

/// The scan lines of one path on the bed's grid: line k lies at (k + ½) · pitch above the bed's lower edge.
struct ScanLines {
  std::int64_t first = 0;
  std::vector<std::size_t> starts;  // of each line's spans, and where the last one's end
  std::vector<Span> spans;          // in each line from left to right, none touching another

  [[nodiscard]] std::int64_t end() const {
    return starts.empty() ? first : first + static_cast<std::int64_t>(starts.size()) - 1;
  }
  /// Empty where the path has no such line.
  [[nodiscard]] std::span<const Span> line(std::int64_t k) const;
};

/// How often lines of that pitch cross the polygons' edges, to within one an edge.
double crossings_of(const Polygons& polygons, double pitch);

/// Filled by the non-zero rule; artwork is welded, so that even-odd gives the same. Places are kept to a millionth of a mm.
/// Cost: edges and crossings, sorted line by line.
ScanLines scan_lines(const Polygons& polygons, double pitch);

/// The line's ink of several paths, touching spans joined; `into` is emptied first.
void gather_line(std::span<const ScanLines* const> paths, std::int64_t k, std::vector<Span>& into);

}  // namespace ordinatio::inline machine
