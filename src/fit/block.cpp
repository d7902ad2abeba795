#include <algorithm>
#include <map>

#include "fit/fit.h"
#include "fit/hanging.h"
#include "text/optical_band.h"

namespace ordinatio::inline fit {
namespace {

double start_x(const LineMeasure& line, double size, Alignment alignment) {
  switch (alignment) {
    case Alignment::left:
      return -size * line.left;
    case Alignment::right:
      return -size * line.right;
    default:
      return -size * (line.left + line.right) / 2;
  }
}

/// Every line as wide as the widest, but none enlarged by more than the ratio.
std::vector<double> sizes_of(std::span<const LineMeasure> lines, const BlockStyle& style) {
  std::vector<double> sizes;
  double widest = 0;
  for (const LineMeasure& line : lines) {
    sizes.push_back(line.size);
    widest = std::max(widest, line.size * (line.right - line.left));
  }
  if (style.sizes == LineSizes::as_styled) return sizes;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double width = sizes[i] * (lines[i].right - lines[i].left);
    if (width > 0) sizes[i] *= std::min(widest / width, style.width_ratio);
  }
  return sizes;
}

/// The middle to centre upright.
double optical_middle(std::span<const LineMeasure> lines, const Arrangement& arrangement) {
  const auto has_ink = [](const LineMeasure& line) { return !line.ink.empty(); };
  const auto first = static_cast<std::size_t>(std::ranges::find_if(lines, has_ink) - lines.begin());
  std::size_t last = lines.size() - 1;
  while (!has_ink(lines[last])) --last;
  const auto height_of = [&](std::size_t i, double em) { return arrangement.origins[i].y + arrangement.sizes[i] * em; };
  const double between = (height_of(first, lines[first].optical_top) + height_of(last, lines[last].optical_bottom)) / 2;
  double weight = 0, moment = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double ink = arrangement.sizes[i] * arrangement.sizes[i] * lines[i].ink_area;
    weight += ink;
    moment += ink * height_of(i, lines[i].centre);
  }
  return weight > 0 ? between + weight_share * (moment / weight - between) : between;
}

Bounds scaled(const Bounds& box, double size) {
  return {size * box.left, size * box.bottom, size * box.right, size * box.top};
}

/// How far each baseline is below the one before, where ink needs nothing.
std::vector<double> usual_distances(std::span<const LineMeasure> lines, std::span<const double> sizes,
                                    const BlockStyle& style) {
  std::map<std::size_t, double> leadings;
  std::vector<double> distances;
  double above = 0;  // a line's leading, in ems of the block
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto [leading, is_new] = leadings.try_emplace(lines[i].role);
    if (is_new) leading->second = role_leading(lines, lines[i].role, style);
    const double own = sizes[i] * leading->second;
    distances.push_back(i == 0 ? 0 : leading_below * above + (1 - leading_below) * own);
    above = own;
  }
  return distances;
}

/// The same with room for the ink. What two lines need more than is usual, all pairs of lines in the same roles get, each
/// in proportion; where empty lines stand between, those that border on them. Lines further up count too: tiny lines let a
/// tall one reach past them.
std::vector<double> distances_of(std::span<const LineMeasure> lines, std::span<const double> sizes,
                                 const BlockStyle& style) {
  std::vector<double> distances = usual_distances(lines, sizes, style);
  std::map<std::pair<std::size_t, std::size_t>, double> stretches;
  const auto stretch_at = [&](std::size_t i) -> double& {
    return stretches.try_emplace({lines[i - 1].role, lines[i].role}, 1).first->second;
  };
  for (std::size_t low = 1; low < lines.size(); ++low) {
    double usual = 0;
    for (std::size_t high = low; high-- > 0 && !lines[low].ink.empty();) {
      usual += distances[high + 1];
      if (lines[high].ink.empty()) continue;
      const double needed = sizes[low] * lines[low].ink.top - sizes[high] * lines[high].ink.bottom +
                            style.least_gap * (sizes[high] + sizes[low]) / 2;
      if (needed <= usual) continue;
      for (std::size_t i = high + 1; i <= low; ++i) stretch_at(i) = std::max(stretch_at(i), needed / usual);
    }
  }
  for (std::size_t i = 1; i < lines.size(); ++i) distances[i] *= stretch_at(i);
  return distances;
}

}  // namespace

LineMeasure measure_line(const ShapedLine& line, double size, double cap_height, Typesetter& typesetter,
                         const BlockStyle& style) {
  LineMeasure measure{line.ink, 0, 0, 0, 0, size};
  measure.cap_height = line.alphabetic ? cap_height : 0;
  if (line.ink.empty()) return measure;
  const Overhang overhang = style.hang_punctuation ? overhang_of(line, typesetter) : Overhang{};
  measure.left = line.ink.left + overhang.left;
  measure.right = line.ink.right - overhang.right;
  const OpticalBand band = optical_band(line, typesetter);
  measure.optical_top = band.top;
  measure.optical_bottom = band.bottom;
  measure.centre = band.centre;
  measure.ink_area = band.ink;
  measure.small_letters = band.small_letters;
  if (band.climbs) measure.least_leading = climbing_leading;
  return measure;
}

double role_leading(std::span<const LineMeasure> lines, std::size_t role, const BlockStyle& style) {
  bool small_letters = false;
  for (const LineMeasure& line : lines) small_letters |= line.role == role && line.small_letters;
  const double by_capitals = small_letters ? style.cap_leading.mixed : style.cap_leading.capitals;
  double leading = 0;
  for (const LineMeasure& line : lines) {
    if (line.role != role) continue;
    const bool by_em = line.cap_height == 0 || by_capitals == 0;
    leading = std::max(leading, by_em ? std::max(style.leading, line.least_leading) : by_capitals * line.cap_height);
  }
  return leading;
}

Arrangement arrange(std::span<const LineMeasure> lines, const BlockStyle& style) {
  Arrangement result;
  result.sizes = sizes_of(lines, style);
  double baseline = 0;
  const std::vector<double> distances = distances_of(lines, result.sizes, style);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    baseline -= distances[i];
    const bool blank = lines[i].ink.empty();
    result.origins.push_back({blank ? 0 : start_x(lines[i], result.sizes[i], style.alignment), baseline});
    if (!blank) result.ink.add(scaled(lines[i].ink, result.sizes[i]).shifted(result.origins[i]));
  }
  if (result.ink.empty()) return result;
  const bool on_axis = style.hang_punctuation && style.alignment == Alignment::centre;  // what hangs shifts nothing
  result.anchor = {on_axis ? 0 : result.ink.centre().x, optical_middle(lines, result)};
  return result;
}

Wish within_even_gaps(const Wish& wish, const Bounds& ink, double size, double low, double high) {
  const double reach = std::min(high - wish.target.y, wish.target.y - low);
  const double gap = std::max(0.0, reach - size * ink.height() / 2);  // above and below, with the ink in the middle
  const double most = gap * (uneven_gaps - 1) / (uneven_gaps + 1) / size;
  Wish even = wish;
  even.anchor.y = std::clamp(wish.anchor.y, ink.centre().y - most, ink.centre().y + most);
  return even;
}

Block build_block(Typesetter& typesetter, std::vector<BlockLine> lines, const BlockStyle& style) {
  std::vector<LineMeasure> measures;
  for (const BlockLine& line : lines) {
    measures.push_back(measure_line(line.shaped, line.size, line.cap_height, typesetter, style));
    measures.back().role = line.role;
  }
  Arrangement arrangement = arrange(measures, style);
  Block block;
  for (std::size_t i = 0; i < lines.size(); ++i) lines[i].size = arrangement.sizes[i];
  block.lines = std::move(lines);
  block.origins = std::move(arrangement.origins);
  block.ink = arrangement.ink;
  block.anchor = arrangement.anchor;
  return block;
}

}  // namespace ordinatio::inline fit
