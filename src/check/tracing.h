// In: a part of the sheet, and what a file draws in its place. Out: whether it is the same path, point by point.
// Never: measures ink. What is not the same to the last place may be right all the same, and is measured instead.
// Of this folder alone.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "check/cubic.h"
#include "check/dxf_polyline.h"
#include "check/expectation.h"

namespace ordinatio::inline check {

/// Whether SVG path data has the path's commands one by one and its points within half a `step` mm, the last place of a
/// coordinate: x·scale, height − y·scale.
bool spells(std::string_view path_data, const Path& path, double scale, double height, double step);

/// Whether the paths have the same contours, lines and curves, and their points lie within `tolerance` mm along each axis;
/// a quadratic curve and the cubic one that it is raised to are the same.
bool is_traced(const Path& found, const Path& wanted, double tolerance);

/// Follows the polylines of a file along the parts of the sheet: each vertex must stand on its contour where the fewest
/// chords within the kind's tolerance have theirs.
class ChordTrace {
 public:
  ChordTrace(const Expectation& expectation, const FileKind& kind) : parts_(expectation.parts), kind_(kind) {}
  /// Whether the polyline is the next contour. After the first that is not, the trace is lost.
  bool take(const DxfPolyline& polyline);
  /// Whether no contour is left.
  [[nodiscard]] bool done() const;

 private:
  /// Whether it is closed; nothing where the polyline leaves it.
  std::optional<bool> follow_contour();
  bool pass(Point wanted);
  bool pass(const Cubic& curve);

  const std::vector<ExpectedPart>& parts_;
  const FileKind& kind_;
  std::size_t part_ = 0, verb_ = 0, point_ = 0;  // where the next contour begins
  std::string layer_;
  std::span<const Point> vertices_;  // of the polyline that is followed
  std::size_t at_ = 0;               // the first of them that is still to come
};

}  // namespace ordinatio::inline check
