// In: passages and the styles of their lines. Out: every line that may be made of them, shaped and measured once, for
// whatever regions they are to lie in, one after another. Never: chooses. Of this folder alone.
#pragma once

#include <optional>
#include <unordered_map>

#include "fit/passages.h"

namespace ordinatio::inline fit {

struct LineCandidate {
  ShapedLine shaped;
  LineMeasure measure;
  std::optional<ConvexHull> hull;  // of its ink, in its own ems, once it was asked for
  std::vector<double> supports{};  // of its ink, for each edge of a region, once they were asked for
  std::size_t region = 0;          // the number of that region
  MaybeFault fault{};              // it cannot be drawn, though the whole passage could
};

class LineCandidates {
 public:
  LineCandidates(Typesetter& typesetter, const TextPassages& list, const SettingRules& rules);
  /// Shapes the passages. Faults: what no face draws, told by its place in the customer's `lines`; no ink at all.
  MaybeFault shape(const std::vector<StyledLine>& lines);
  /// From now on supports are for this region, which must outlive its use. What is known of the lines stays, and no fault
  /// has come in the way yet.
  void lie_in(const ConvexRegion& region);

  /// The line of pieces [first, last), which are of one passage.
  LineCandidate& line(std::size_t first, std::size_t last);
  /// How wide it is as it is aligned, ems of the block; or a width above `most` that it has at the least; infinite where
  /// the pieces are of several passages.
  double width(std::size_t first, std::size_t last, double most);
  /// How far each piece's end is from the text's beginning, were it all one line, ems of the block, by and large.
  [[nodiscard]] std::vector<double> reaches() const;
  const ConvexHull& hull_of(LineCandidate& line);
  const std::vector<double>& supports_of(LineCandidate& line);

  [[nodiscard]] const LineStyle& style_of(std::size_t piece) const;
  [[nodiscard]] const std::vector<ShapedLine>& passages() const { return wholes_; }
  /// Each passage, were it one line.
  [[nodiscard]] std::span<const LineMeasure> passage_measures() const { return whole_measures_; }
  /// Lines that are kept.
  [[nodiscard]] std::size_t count() const { return candidates_.size(); }
  /// What came in the way of a line that was asked for, for this region.
  [[nodiscard]] const MaybeFault& fault() const { return fault_; }

 private:
  Fault in_own_line(const TextPassage& passage, const Fault& fault, const std::vector<StyledLine>& lines);
  LineMeasure measure_of(const ShapedLine& line, const TextPassage& passage);
  double support(const ShapedLine& line, Point normal);

  Typesetter& typesetter_;
  const TextPassages& list_;
  const SettingRules& rules_;
  const ConvexRegion* region_ = nullptr;
  std::size_t region_number_ = 0;   // from 1
  std::vector<ShapedLine> wholes_;  // of the passages
  std::vector<LineMeasure> whole_measures_;
  std::unordered_map<std::size_t, LineCandidate> candidates_;  // by first piece and last
  MaybeFault fault_;
};

}  // namespace ordinatio::inline fit
