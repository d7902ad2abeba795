#include "fit/size_bound.h"

#include <algorithm>
#include <limits>

#include "fit/kept_lines.h"
#include "fit/plan_bounds.h"

namespace ordinatio::inline fit {
namespace {

constexpr double blank_width = 0.6;  // em; a wide face's word space, with what the style adds
constexpr double unbounded = std::numeric_limits<double>::infinity();

/// A square of 1 mm: sizes in it are heights and widths turned over.
SettingArea unit_square() {
  const ConvexRegion region = region_of(Polygon{{0, 0}, {1, 0}, {1, 1}, {0, 1}});
  return {{region, {}}, widths_of(region), {0.5, 0.5}, false};
}

/// For each number of lines, the least width of the widest; infinite where so many cannot be made. By the last line's
/// first piece (Bellman's principle): the others are best as they are best without it.
std::vector<double> least_widths(LineCandidates& lines, std::size_t pieces) {
  std::vector<double> before(pieces + 1, unbounded), widths;
  before[0] = 0;
  for (std::size_t rows = 1; rows <= pieces; ++rows) {
    std::vector<double> least(pieces + 1, unbounded);
    for (std::size_t last = rows; last <= pieces; ++last) {
      for (std::size_t first = last; first-- > rows - 1;) {
        if (before[first] >= least[last]) continue;
        const double width = lines.width(first, last, least[last]);
        if (width >= least[last]) break;  // one piece more makes it no narrower
        least[last] = std::max(before[first], width);
      }
    }
    widths.push_back(least[pieces]);
    before = std::move(least);
  }
  return widths;
}

/// The same for a text of so many pieces that not all lines can be asked for: together the lines are as long as the pieces,
/// less the blanks that are lost where a line ends and what stands beyond the ink, and one of them is no shorter than the others.
std::vector<double> least_widths_of_long(LineCandidates& lines, const TextPassages& list, const SettingRules& rules) {
  constexpr double side_bearings = 1;  // em, of both ends of a line
  const std::size_t pieces = list.pieces.size();
  const double largest = std::ranges::max(rules.styles, {}, &LineStyle::size).size;
  double blank = 0;
  for (const LineStyle& style : rules.styles) {
    blank = std::max(blank, style.size * (blank_width + std::max(0.0, style.text.letter_spacing)));
  }
  const double length = lines.reaches().back();
  double widest = 0;
  for (std::size_t i = 0; i < pieces; ++i) widest = std::max(widest, lines.width(i, i + 1, unbounded));
  std::vector<double> widths;
  for (std::size_t rows = 1; rows <= pieces; ++rows) {
    const auto count = static_cast<double>(rows);
    widths.push_back(std::max(widest, (length - (count - 1) * blank) / count - side_bearings * largest));
  }
  return widths;
}

double smallest_cap(const TextPassages& list, const SettingRules& rules) {
  double smallest = unbounded;
  for (const TextPassage& passage : list.passages) {
    const LineStyle& style = rules.styles[passage.style];
    if (!passage.blank) smallest = std::min(smallest, style.size * style.cap_height);
  }
  return rules.block.sizes == LineSizes::same_width ? rules.block.width_ratio * smallest : smallest;
}

SizeBound::Extent extent_as_they_are(LineCandidates& lines, const LineEnds& own, const BlockStyle& style) {
  std::vector<LineMeasure> measures;
  std::size_t first = 0;
  for (const std::size_t last : own) measures.push_back(lines.line(std::exchange(first, last), last).measure);
  const Bounds ink = arrange(measures, style).ink;
  return {ink.width(), ink.height()};
}

}  // namespace

double SizeBound::cap_height_in(double width, double height) const {
  double size = 0;
  for (const Extent& extent : extents) size = std::max(size, std::min(width / extent.width, height / extent.height));
  return smallest_cap * std::min(size, largest);
}

Result<SizeBound> PreparedLines::bound() {
  auto& [typesetter, rules, list, candidates] = *kept_;
  const SettingArea square = unit_square();
  candidates.lie_in(square.area.region);
  PlanBounds bounds(candidates, list, rules, square);
  SizeBound bound{{}, bounds.largest(), smallest_cap(list, rules)};
  const LineEnds own = own_ends(list);
  const std::size_t pieces = list.pieces.size();
  if (own.size() == pieces) {
    bound.extents.push_back(extent_as_they_are(candidates, own, rules.block));
  } else {
    const std::vector<double> widths =
        pieces > piece_limit ? least_widths_of_long(candidates, list, rules) : least_widths(candidates, pieces);
    for (std::size_t rows = 1; rows <= pieces; ++rows) {
      const double height = 1 / bounds.height_size(rows, 1, pieces - 1);
      if (widths[rows - 1] < unbounded) bound.extents.push_back({widths[rows - 1], height});
    }
  }
  if (candidates.fault()) return *candidates.fault();
  return bound;
}

}  // namespace ordinatio::inline fit
