// Of this folder alone.
#pragma once

#include <span>
#include <string>

#include "check/difference.h"
#include "check/expectation.h"
#include "check/ink.h"

namespace ordinatio::inline check {

/// Pairs the contours of a file with those of a part, one after another. A contour so small that rounding may have
/// erased it may be missing.
class ContourPairing {
 public:
  ContourPairing(std::span<const Contour> model, double step) : model_(model), step_(step) {}
  /// Whether the found contour is the next one; if so, it is taken.
  bool take(const Contour& found);
  /// Whether nothing is left that must be there.
  [[nodiscard]] bool done() const;
  /// The next contour that must be there; only when not done.
  [[nodiscard]] const Contour& next() const;
  [[nodiscard]] std::size_t taken() const { return taken_; }

 private:
  [[nodiscard]] bool may_be_missing(const Contour& contour) const { return contour.reach <= 2 * step_; }
  std::span<const Contour> model_;
  double step_;
  std::size_t at_ = 0, taken_ = 0;
};

/// The ink that a file may show: the model's as it is, or as the coarsest chords draw it.
struct InkRange {
  Ink exact;
  double coarse_area, coarse_length;
};
InkRange range_of(const ExpectedPart& expected, double chord);

/// Throws a Difference unless the found ink is the expected: area within area_share where `filled`, else length, and
/// bounds. What rounding to the kind's last place may do is allowed for.
void compare_ink(const std::string& name, bool filled, const InkRange& expected, const Ink& found, const FileKind& kind,
                 std::size_t line);

/// Throws a Difference unless the path lies on the bed and, where it is an item's ink, in its clear area.
void compare_place(const Expectation& expectation, const ExpectedPart& expected, const Path& path, const Ink& ink,
                   std::size_t line);

/// All of it for one part; returns the area of what was found, mm².
double compare_part(const Expectation& expectation, const ExpectedPart& expected, const Path& found,
                    const FileKind& kind, std::size_t line);

}  // namespace ordinatio::inline check
