// Of this folder alone.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "check/dxf_groups.h"
#include "geometry/geometry.h"

namespace ordinatio::inline check {

/// A polyline as it stands in a file.
struct DxfPolyline {
  std::string_view layer;
  std::vector<Point> points;
  int flags = 0;
  std::size_t line = 0;
  [[nodiscard]] bool closed() const { return flags == 1; }
};

/// Reads the polylines of plain lines, one after another, and refuses what is more or less than that: bulges, widths,
/// heights over the bed, vertices without both coordinates, a first vertex that is said again at the end.
class DxfPolylineReader {
 public:
  explicit DxfPolylineReader(DxfGroups& groups) : groups_(groups) {}

  /// `group` is the polyline's first; afterwards it is the first one behind it. The polyline is overwritten by the next.
  const DxfPolyline& read(DxfGroup& group);

 private:
  DxfGroup next() { return groups_.next(); }
  void read_vertices(DxfGroup& group);
  bool read_plain_vertex();
  void read_vertex(DxfGroup& group);
  void read_light(DxfGroup& group);
  void take_layer_or_flags(const DxfGroup& group);
  void require_sound() const;
  [[noreturn]] void refuse_group(const DxfGroup& group) const;

  DxfGroups& groups_;
  DxfPolyline found_;
  std::string plain_head_;  // how a vertex on the polyline's layer begins when it has nothing but a place
};

}  // namespace ordinatio::inline check
