// Of this folder alone.
#pragma once

#include <string>

#include "check/comparison.h"
#include "check/dxf_polyline.h"
#include "check/overlap.h"

namespace ordinatio::inline check {

/// The layer that an operation's polylines lie on, and those of a part that may have one of its own.
std::string layer_name(Operation operation);
std::string layer_name(const SheetPart& part);

/// Hands polylines to the parts that they must belong to: those of a part are consecutive, parts in the sheet's order.
/// Compares each part once all of it is there.
class DxfAssembly {
 public:
  DxfAssembly(const Expectation& expectation, const FileKind& kind)
      : expectation_(expectation), kind_(kind), apart_(expectation) {}

  void take(const DxfPolyline& polyline);
  /// No polyline follows; `line` is for the message.
  void end(std::size_t line);

 private:
  [[nodiscard]] const ExpectedPart& part() const { return expectation_.parts[next_]; }
  bool belongs(const DxfPolyline& polyline, const Contour& contour);
  void begin(std::size_t line);
  void finish();
  [[noreturn]] void misplaced(const DxfPolyline& polyline) const;

  const Expectation& expectation_;
  const FileKind& kind_;
  InkApart apart_;
  std::size_t next_ = 0, line_ = 0;
  bool started_ = false;
  ContourPairing pairing_{{}, 0};
  std::string layer_;
  Path path_;
};

}  // namespace ordinatio::inline check
