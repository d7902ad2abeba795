#include "fit/plan_bounds.h"

#include <algorithm>
#include <limits>

namespace ordinatio::inline fit {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double top_of(const LineMeasure& line) { return line.ink.empty() ? 0 : line.size * line.ink.top; }
double bottom_of(const LineMeasure& line) { return line.ink.empty() ? 0 : line.size * line.ink.bottom; }

/// What its letters ask for is the same however a text is parted: all of them stand in one line or another.
std::map<std::size_t, double> leadings_of(const LineCandidates& lines, const TextPassages& list,
                                          const SettingRules& rules) {
  std::map<std::size_t, double> leadings;
  for (const TextPassage& passage : list.passages) {
    const double size = rules.styles[passage.style].size;
    leadings[passage.style] = size * role_leading(lines.passage_measures(), passage.style, rules.block);
  }
  return leadings;
}

}  // namespace

PlanBounds::PlanBounds(LineCandidates& lines, const TextPassages& list, const SettingRules& rules,
                       const SettingArea& area)
    : lines_(lines), list_(list), rules_(rules), area_(area) {
  const WidthProfile& widths = area.widths;
  box_ = {std::ranges::min(widths.lefts), widths.heights.front(), std::ranges::max(widths.rights),
          widths.heights.back()};
  leadings_ = leadings_of(lines, list, rules);
  leading_ = infinity;
  for (const auto& [style, leading] : leadings_) leading_ = std::min(leading_, leading);
  const std::size_t count = list.pieces.size();
  top_ = top_of(lines.line(0, 1).measure);
  bottom_ = bottom_of(lines.line(count - 1, count).measure);
  const double growth = rules.block.sizes == LineSizes::same_width ? rules.block.width_ratio : 1;
  for (std::size_t i = 0; i < list.passages.size(); ++i) {
    const Bounds& ink = lines.passages()[i].ink;
    if (ink.empty()) continue;
    const double most = growth * rules.styles[list.passages[i].style].size;
    tallest_ = std::max(tallest_, most * ink.top);
    deepest_ = std::min(deepest_, most * ink.bottom);
  }
  least_away_ = infinity;
  for (std::size_t i = 0; i < list.passages.size(); ++i) {
    const LineStyle& style = rules.styles[list.passages[i].style];
    if (!lines.passages()[i].ink.empty()) least_away_ = std::min(least_away_, style.size * style.x_height);
  }
  find_least_heights();
}

/// Every passage has a line, and what lines there are besides go where they take least, as far as a passage has pieces for
/// them.
void PlanBounds::find_least_heights() {
  const auto leading_at = [this](std::size_t piece) {
    return leadings_.at(list_.passages[list_.pieces[piece].passage].style);
  };
  double leadings = 0;
  std::vector<double> others;
  for (std::size_t i = 0; i < list_.pieces.size(); ++i) {
    const bool begins = i == 0 || list_.pieces[i].passage != list_.pieces[i - 1].passage;
    if (begins) {
      leadings += leading_at(i);
    } else {
      others.push_back(leading_at(i));
    }
  }
  std::ranges::sort(others);
  const double first = leading_at(0), last = leading_at(list_.pieces.size() - 1);
  heights_.assign(list_.pieces.size() - others.size(), leadings - (1 - leading_below) * first - leading_below * last);
  for (const double other : others) heights_.push_back(heights_.back() + other);
}

/// Line i of n has i lines above it and n−1−i below, each at least a leading away, and all of them in the region.
std::vector<double> PlanBounds::room(std::size_t rows, double size) const {
  const double lowest = box_.bottom - size * bottom_, highest = box_.top - size * top_;
  if (highest - size * heights_[rows - 1] < lowest) return {};
  std::vector<double> room;
  for (std::size_t row = 0; row < rows; ++row) {
    const double above = static_cast<double>(row) * leading_, under = static_cast<double>(rows - 1 - row) * leading_;
    room.push_back(area_.widths.across(lowest + size * (under + deepest_), highest - size * (above - tallest_)) / size);
  }
  return room;
}

double PlanBounds::line_size(std::size_t first, std::size_t last, std::size_t row, std::size_t rows,
                             std::size_t first_end) {
  const std::uint64_t pieces = list_.pieces.size() + 1;
  const std::uint64_t above = rules_.block.hang_punctuation ? 0 : first_end;  // as add_first_line
  const auto [known, is_new] =
      line_sizes_.try_emplace((((above * pieces + rows) * pieces + row) * pieces + first) * pieces + last);
  if (is_new) known->second = solve_line(first, last, row, rows, first_end);
  return known->second;
}

/// The line with the first one above it, and with no more of the others than how high they stand at the least.
double PlanBounds::solve_line(std::size_t first, std::size_t last, std::size_t row, std::size_t rows,
                              std::size_t first_end) {
  LineCandidate& line = lines_.line(first, last);
  if (line.measure.ink.empty()) return infinity;
  const double above = static_cast<double>(row) * leading_ + top_;
  const double below = bottom_ - static_cast<double>(rows - 1 - row) * leading_;
  const Arrangement alone = arrange({&line.measure, 1}, rules_.block);
  const std::vector<double>& supports = lines_.supports_of(line);
  std::vector<FitRow> fit;
  for (std::size_t i = 0; i < supports.size(); ++i) {
    const HalfPlane& edge = area_.area.region.edges[i];
    fit.push_back({dot(edge.normal, alone.origins[0]) + alone.sizes[0] * supports[i], edge.normal, edge.offset});
  }
  Bounds bounds = alone.ink;
  if (row > 0) add_first_line(fit, bounds, first_end, line.measure, row);
  fit.push_back({std::max(above, bounds.top), {0, 1}, box_.top});
  fit.push_back({std::max(-below, -bounds.bottom), {0, -1}, -box_.bottom});
  bounds.add(Point{alone.ink.centre().x, above});
  bounds.add(Point{alone.ink.centre().x, below});
  add_neighbours(fit, bounds, alone.sizes[0] * lines_.style_of(first).x_height);
  const auto placement = largest_copy(std::move(fit), bounds, {alone.anchor, area_.target, largest(), -1});
  return placement ? placement->size : 0;
}

/// Adds the first line of a plan to the rows of one below it, as near as it can stand. Lines that stand further apart are
/// met by this too: their ink lies upon one axis or begins at one edge, so across the narrower lies within the wider, and
/// in a convex region it may be moved to the wider one upright. Hanging signs break that order.
void PlanBounds::add_first_line(std::vector<FitRow>& rows, Bounds& bounds, std::size_t first_end,
                                const LineMeasure& below, std::size_t row) {
  LineCandidate& line = lines_.line(0, first_end);
  if (line.measure.ink.empty() || rules_.block.hang_punctuation) return;
  const Arrangement alone = arrange({&line.measure, 1}, rules_.block);
  const double apart = std::max(static_cast<double>(row) * leading_, top_of(below) - bottom_of(line.measure));
  const Point origin = alone.origins[0] + Point{0, apart};
  const std::vector<double>& supports = lines_.supports_of(line);
  for (std::size_t i = 0; i < supports.size(); ++i) {
    rows[i].support = std::max(rows[i].support, dot(rows[i].normal, origin) + alone.sizes[0] * supports[i]);
  }
  bounds.add(alone.ink.shifted({0, apart}));
}

/// A block holds this box of its parts, keeps its own x-height from neighbours, and that is no less than one line's.
void PlanBounds::add_neighbours(std::vector<FitRow>& rows, const Bounds& bounds, double away) const {
  for (const HalfPlane& edge : area_.neighbours) {
    const Point corner{edge.normal.x > 0 ? bounds.right : bounds.left, edge.normal.y > 0 ? bounds.top : bounds.bottom};
    rows.push_back({dot(edge.normal, corner) + away, edge.normal, edge.offset});
  }
}

double PlanBounds::height_size(std::size_t rows, std::size_t first_end, std::size_t last_begin) {
  const double top = top_of(lines_.line(0, first_end).measure);
  const double bottom = bottom_of(lines_.line(last_begin, list_.pieces.size()).measure);
  const double height = heights_[rows - 1] + top - bottom;
  return std::min(box_.height() / std::max(height, 1e-9), height_beside_neighbours(height));  // not by nothing
}

/// Of a block that is so many em high at the least: between a neighbour above or below it and the region's other side.
double PlanBounds::height_beside_neighbours(double height) const {
  double size = infinity;
  for (const HalfPlane& edge : area_.neighbours) {
    if (edge.normal.x != 0) continue;
    const double room = edge.normal.y > 0 ? edge.offset - box_.bottom : box_.top + edge.offset;
    size = std::min(size, std::max(room, 0.0) / std::max(height + least_away_, 1e-9));
  }
  return size;
}

/// mm an em of the block, where all lines are in the style with the smallest capitals.
double PlanBounds::largest() const {
  double smallest = infinity;
  for (const LineStyle& style : rules_.styles) smallest = std::min(smallest, style.size * style.cap_height);
  return std::min(rules_.max_cap_height, area_.most_capitals) / smallest;
}

double PlanBounds::box_size(const Bounds& ink) const {
  const double in_box = std::min(box_.width() / ink.width(), box_.height() / ink.height());
  return std::min(in_box, height_beside_neighbours(ink.height()));
}

}  // namespace ordinatio::inline fit
