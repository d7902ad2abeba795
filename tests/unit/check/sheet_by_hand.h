// A small sheet and its files, all written by hand: two items, one with a hole and a curve, one turned and scored;
// a mark and a guide.
#pragma once

#include <string>

#include "bed/bed.h"

namespace ordinatio {

Sheet sheet_by_hand();
std::string svg_by_hand();
/// The same drawing in units of 1/96 inch.
std::string svg_by_hand_in_pixels();

struct HandPolyline {
  std::string layer;
  std::vector<Point> points;
  bool closed = true;
};
/// The sheet's polylines, curves in chords within 0.01 mm.
std::vector<HandPolyline> polylines_by_hand();
std::string dxf_r12_of(const std::vector<HandPolyline>& polylines);
std::string dxf_r2000_of(const std::vector<HandPolyline>& polylines);

/// text with the one occurrence of `from` replaced; throws when it is not there exactly once.
std::string damaged(std::string text, const std::string& from, const std::string& to);

}  // namespace ordinatio
