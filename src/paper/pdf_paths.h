// In: paths in mm, y up, origin at the page's lower left. Out: the content of a PDF page that paints them, and documents
// with such contents below their words.
// Never: sets words, or decides what a page shows. Of this folder alone.
#pragma once

#include <span>
#include <string>

#include "bed/bed.h"
#include "geometry/geometry.h"

namespace ordinatio::inline paper {

struct Pen {
  double width = 0.1;  // mm
  Colour colour;
  std::vector<double> dashes;  // mm on, mm off; empty: unbroken
};

/// What a page paints, as a content stream (ISO 32000-1, 8.5): coordinates in whole 0.0001 mm, quadratic curves as the cubic
/// ones that they are. Cairo would round to 1/256 point (1.4 µm: enough to spoil the area of a thin border), and takes most of
/// a sheet's time to write the numbers.
class PathContent {
 public:
  /// By the non-zero rule. Coordinates within farthest_point of the origin.
  void fill(const Path& path, Colour colour);
  void stroke(const Path& path, const Pen& pen);
  [[nodiscard]] bool empty() const { return out_.empty(); }
  [[nodiscard]] std::string bytes() const;

 private:
  void append(double mm);
  void append(Point p);
  void append_path(const Path& path);
  void append_colour(Colour colour, const char* name);

  std::string out_;
};
inline constexpr double farthest_point = 1e5;  // mm; what lies farther away is a mistake

/// The document, each of whose pages paints its content first; the same bytes for the same input. Throws std::exception where
/// `pdf` is none.
std::string with_paths(const std::string& pdf, std::span<const PathContent> pages);

}  // namespace ordinatio::inline paper
