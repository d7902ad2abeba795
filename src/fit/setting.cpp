#include <algorithm>
#include <optional>
#include <utility>

#include "fit/line_plan.h"
#include "fit/passages.h"

namespace ordinatio {
namespace {

/// A line that may be made, shaped once.
struct LineCandidate {
  ShapedLine shaped;
  LineMeasure measure;
  std::optional<ConvexHull> hull;  // of its ink, in its own ems, once it was asked for
  std::vector<double> supports;    // of its ink, for each edge of the region, once they were asked for
};

/// Where a block of this arrangement is wanted, and how large it may be.
Wish wish_for(const Arrangement& arrangement, double largest_cap, const SettingRules& rules, const SettingArea& area) {
  Wish wish{arrangement.anchor, area.target, rules.max_cap_height / largest_cap, rules.off_axis_gain};
  if (area.at_edge) {
    const Bounds& ink = arrangement.ink;
    wish.anchor.x = rules.block.alignment == Alignment::left ? ink.left : ink.right;
  }
  return wish;
}

Fault no_room(const SettingArea& area) {
  const bool among_obstacles = !area.area.obstacles.empty();
  return {"there is no room for the text", "",
          among_obstacles ? "what is kept clear leaves no place where all its lines go"
                          : "no letter of any size goes into what is left of the blank",
          among_obstacles ? "Part it into other lines, or engrave it on a blank with less to keep clear"
                          : "Choose a design with more room"};
}

/// One text that is being set.
class Setter {
 public:
  Setter(Typesetter& typesetter, const std::vector<StyledLine>& lines, const SettingRules& rules,
         const SettingArea& area)
      : typesetter_(typesetter), lines_(lines), rules_(rules), area_(area) {}

  Result<Setting> set() {
    list_ = passages_of(lines_, rules_, typesetter_);
    const WidthProfile& widths = area_.widths;
    box_ = {std::ranges::min(widths.lefts), widths.heights.front(), std::ranges::max(widths.rights),
            widths.heights.back()};
    if (auto fault = shape_passages()) return *std::move(fault);
    const LineEnds own = own_ends(list_);
    const bool may_choose = own.size() < list_.pieces.size();
    const LineEnds ends = may_choose ? best_plan(question(), own).ends : own;
    if (fault_) return *std::move(fault_);
    return setting_of(ends);
  }

 private:
  MaybeFault shape_passages() {
    for (const TextPassage& passage : list_.passages) {
      const TextStyle& style = rules_.styles[passage.style].text;
      Result<ShapedLine> shaped = typesetter_.shape(passage.text, style, passage.first_line + 1);
      if (!shaped) return in_own_line(passage, shaped.fault());
      wholes_.push_back(std::move(*shaped));
    }
    const bool has_ink = std::ranges::any_of(wholes_, [](const ShapedLine& whole) { return !whole.ink.empty(); });
    if (has_ink) return std::nullopt;
    return Fault{"there is nothing to engrave", "", "the text draws no ink", "Ask for the text"};
  }

  /// The same Fault, told by the place in the customer's line.
  Fault in_own_line(const TextPassage& passage, const Fault& fault) {
    for (std::size_t i = passage.first_line; i < lines_.size() && lines_[i].style == passage.style; ++i) {
      const Result<ShapedLine> alone = typesetter_.shape(lines_[i].text, rules_.styles[passage.style].text, i + 1);
      if (!alone) return alone.fault();
    }
    return fault;
  }

  const LineStyle& style_of(std::size_t piece) const {
    return rules_.styles[list_.passages[list_.pieces[piece].passage].style];
  }

  /// Where a byte's pen stands in its passage: a first look at a line's width.
  double pen_at(const ShapedLine& whole, std::size_t byte) const {
    const auto glyph = std::ranges::lower_bound(whole.glyphs, byte, {}, &PlacedGlyph::cluster);
    return glyph == whole.glyphs.end() ? whole.advance : glyph->origin.x;
  }

  LineCandidate& candidate(std::size_t first, std::size_t last) {
    std::optional<LineCandidate>& known = candidates_[first * list_.pieces.size() + last - 1];
    if (known) return *known;
    const TextPiece &from = list_.pieces[first], &to = list_.pieces[last - 1];
    const LineStyle& style = style_of(first);
    Result<ShapedLine> line = typesetter_.part_of(wholes_[from.passage], from.begin, to.end, style.text);
    if (!line) fault_ = line.fault();  // a part cannot be drawn though the whole could: told when all is done
    ShapedLine shaped = line ? std::move(*line) : ShapedLine{};
    const LineMeasure measure = measure_line(shaped, style.size, style.cap_height, typesetter_, rules_.block);
    return known.emplace(LineCandidate{std::move(shaped), measure, {}, {}});
  }

  double width(std::size_t first, std::size_t last, double most) {
    const TextPiece &from = list_.pieces[first], &to = list_.pieces[last - 1];
    if (from.passage != to.passage) return std::numeric_limits<double>::infinity();
    const ShapedLine& whole = wholes_[from.passage];
    const double size = style_of(first).size;
    constexpr double side_bearings = 1;  // em; ink reaches beyond or stays short of its pen by less
    if (whole.left_to_right) {
      const double least = size * (pen_at(whole, to.end) - pen_at(whole, from.begin) - side_bearings);
      if (least > most) return least;
    }
    const LineMeasure& measure = candidate(first, last).measure;
    return size * (measure.right - measure.left);
  }

  /// Line i of n has i lines above it and n−1−i below, each at least a leading away, and all of them in the region.
  std::vector<double> room(std::size_t rows, double size) {
    const WidthProfile& widths = area_.widths;
    const double leading = size * rules_.block.leading * least_style_size();
    const double below = size * least_height(rows);
    const double lowest = widths.heights.front() - size * bottom_, highest = widths.heights.back() - size * top_;
    if (highest - below < lowest) return {};
    std::vector<double> room;
    for (std::size_t row = 0; row < rows; ++row) {
      const double above = static_cast<double>(row) * leading, under = static_cast<double>(rows - 1 - row) * leading;
      room.push_back(widths.across(lowest + under + size * deepest_, highest - above + size * tallest_) / size);
    }
    return room;
  }

  /// The line alone, with no more of the others than how high they stand at the least.
  double line_size(std::size_t first, std::size_t last, std::size_t row, std::size_t rows) {
    LineCandidate& line = candidate(first, last);
    if (line.measure.ink.empty()) return std::numeric_limits<double>::infinity();
    const double leading = rules_.block.leading * least_style_size();
    const double above = static_cast<double>(row) * leading + top_;
    const double below = bottom_ - static_cast<double>(rows - 1 - row) * leading;
    const Arrangement alone = arrange({&line.measure, 1}, rules_.block);
    const double size = alone.sizes.front();
    const std::vector<double>& supports = supports_of(line);
    std::size_t edge = 0;  // largest_copy() asks once for each, in their order; the last two are the region's box
    const auto support = [&](Point normal) {
      const double in_line = edge < supports.size() ? supports[edge] : 0;
      ++edge;
      const double own = dot(normal, alone.origins.front()) + size * in_line;
      return normal.x != 0 ? own : normal.y > 0 ? std::max(own, above) : std::max(own, -below);
    };
    ConvexRegion region = area_.area.region;
    region.edges.push_back({{0, 1}, area_.widths.heights.back()});
    region.edges.push_back({{0, -1}, -area_.widths.heights.front()});
    Bounds bounds = alone.ink;
    bounds.add(Point{alone.ink.centre().x, above});
    bounds.add(Point{alone.ink.centre().x, below});
    const auto placement = largest_copy(support, bounds, region, {alone.anchor, area_.target, question_largest(), -1});
    return placement ? placement->size : 0;
  }

  /// Baseline to baseline from the first of `rows` lines to the last, ems, at the least: every passage has a line, and
  /// what lines there are besides go where they are smallest, as far as a passage has pieces for them.
  double least_height(std::size_t rows) {
    if (heights_.empty()) {
      double sizes = 0;
      std::vector<double> others;
      for (std::size_t i = 0; i < list_.pieces.size(); ++i) {
        const bool begins = i == 0 || list_.pieces[i].passage != list_.pieces[i - 1].passage;
        if (begins) {
          sizes += style_of(i).size;
        } else {
          others.push_back(style_of(i).size);
        }
      }
      std::ranges::sort(others);
      const double ends =
          (1 - leading_below) * style_of(0).size + leading_below * style_of(list_.pieces.size() - 1).size;
      heights_.assign(list_.pieces.size() - others.size(), rules_.block.leading * (sizes - ends));
      for (const double other : others) heights_.push_back(heights_.back() + rules_.block.leading * other);
    }
    return heights_[rows - 1];
  }

  double height_size(std::size_t rows, std::size_t first_end, std::size_t last_begin) {
    const LineMeasure& first = candidate(0, first_end).measure;
    const LineMeasure& last = candidate(last_begin, list_.pieces.size()).measure;
    const double top = first.ink.empty() ? 0 : first.size * first.ink.top;
    const double bottom = last.ink.empty() ? 0 : last.size * last.ink.bottom;
    return box_.height() / std::max(least_height(rows) + top - bottom, 1e-9);
  }

  double least_style_size() const { return std::ranges::min(rules_.styles, {}, &LineStyle::size).size; }

  /// mm an em of the block, where all lines are in the style with the smallest capitals.
  double question_largest() const {
    double smallest = std::numeric_limits<double>::infinity();
    for (const LineStyle& style : rules_.styles) smallest = std::min(smallest, style.size * style.cap_height);
    return rules_.max_cap_height / smallest;
  }

  PlanQuestion question() {
    PlanQuestion question;
    const std::size_t count = list_.pieces.size();
    candidates_.resize(count * count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool last = i + 1 == count || list_.pieces[i + 1].passage != list_.pieces[i].passage;
      question.pieces.push_back({true, last, list_.pieces[i].penalty});
    }
    // Of the first line's ink above its baseline, and the last one's below, so much is there in every plan.
    top_ = candidate(0, 1).measure.ink.empty() ? 0 : style_of(0).size * candidate(0, 1).measure.ink.top;
    bottom_ = candidate(count - 1, count).measure.ink.empty()
                  ? 0
                  : style_of(count - 1).size * candidate(count - 1, count).measure.ink.bottom;
    for (std::size_t i = 0; i < wholes_.size(); ++i) {
      const double most = rules_.styles[list_.passages[i].style].size *
                          (rules_.block.sizes == LineSizes::same_width ? rules_.block.width_ratio : 1);
      if (wholes_[i].ink.empty()) continue;
      tallest_ = std::max(tallest_, most * wholes_[i].ink.top);
      deepest_ = std::min(deepest_, most * wholes_[i].ink.bottom);
    }
    question.width = [this](std::size_t first, std::size_t last, double most) { return width(first, last, most); };
    question.room = [this](std::size_t rows, double size) { return room(rows, size); };
    question.size = [this](const LineEnds& ends, double worth) { return size_of(ends, worth); };
    question.height_size = [this](std::size_t rows, std::size_t first_end, std::size_t last_begin) {
      return height_size(rows, first_end, last_begin);
    };
    question.line_size = [this](std::size_t first, std::size_t last, std::size_t row, std::size_t rows) {
      return line_size(first, last, row, rows);
    };
    question.largest = question_largest();
    return question;
  }

  Arrangement arrangement_of(const LineEnds& ends) {
    std::vector<LineMeasure> measures;
    std::size_t first = 0;
    for (const std::size_t last : ends) measures.push_back(candidate(std::exchange(first, last), last).measure);
    return arrange(measures, rules_.block);
  }

  double largest_cap(const LineEnds& ends, const Arrangement& arrangement) const {
    double largest = 0;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      if (list_.passages[list_.pieces[ends[i] - 1].passage].blank) continue;
      largest = std::max(largest, arrangement.sizes[i] * style_of(ends[i] - 1).cap_height);
    }
    return largest;
  }

  PlanFit size_of(const LineEnds& ends, double worth) {
    const Arrangement arrangement = arrangement_of(ends);
    const Wish wish = wish_for(arrangement, largest_cap(ends, arrangement), rules_, area_);
    const double in_box =
        std::min({wish.largest, box_.width() / arrangement.ink.width(), box_.height() / arrangement.ink.height()});
    if (in_box <= worth) return {in_box, false};
    const ClearArea& area = area_.area;
    std::size_t edge = 0;  // largest_copy() asks once for each, in their order
    const auto support = [&](Point normal) { return support_of(ends, arrangement, normal, edge++); };
    const auto placement = area.obstacles.empty() ? largest_copy(support, arrangement.ink, area.region, wish)
                                                  : largest_copy(hulls_of(ends, arrangement), area, wish);
    return {placement ? placement->size : 0, true};
  }

  std::vector<ConvexHull> hulls_of(const LineEnds& ends, const Arrangement& arrangement) {
    std::vector<ConvexHull> hulls;
    std::size_t first = 0;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      LineCandidate& line = candidate(std::exchange(first, ends[i]), ends[i]);
      if (line.measure.ink.empty()) continue;
      if (!line.hull) line.hull = hull_of(line.shaped);
      ConvexHull& hull = hulls.emplace_back(*line.hull);
      for (Point& p : hull.vertices) p = arrangement.origins[i] + arrangement.sizes[i] * p;
    }
    return hulls;
  }

  ConvexHull hull_of(const ShapedLine& line) {
    std::vector<Point> points;
    for (const PlacedGlyph& glyph : line.glyphs) {
      for (const Point p : typesetter_.outline(glyph.face, glyph.glyph).hull.vertices)
        points.push_back(glyph.origin + p);
    }
    return ordinatio::hull_of(std::move(points));
  }

  double support_of(const LineEnds& ends, const Arrangement& arrangement, Point normal, std::size_t edge) {
    double support = -1e300;
    std::size_t first = 0;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      LineCandidate& line = candidate(std::exchange(first, ends[i]), ends[i]);
      if (line.measure.ink.empty()) continue;
      const double start = dot(normal, arrangement.origins[i]);
      support = std::max(support, start + arrangement.sizes[i] * supports_of(line)[edge]);
    }
    return support;
  }

  const std::vector<double>& supports_of(LineCandidate& line) {
    if (line.supports.empty()) {
      for (const HalfPlane& edge : area_.area.region.edges) {
        line.supports.push_back(line_support(line.shaped, edge.normal));
      }
    }
    return line.supports;
  }

  double line_support(const ShapedLine& line, Point normal) {
    double support = -1e300;
    for (const PlacedGlyph& glyph : line.glyphs) {
      const GlyphOutline& outline = typesetter_.outline(glyph.face, glyph.glyph);
      const Bounds& ink = outline.ink;
      const double start = dot(normal, glyph.origin);
      const Point furthest{normal.x > 0 ? ink.right : ink.left, normal.y > 0 ? ink.top : ink.bottom};
      if (ink.empty() || start + dot(normal, furthest) <= support) continue;
      for (const Point p : outline.hull.vertices) support = std::max(support, start + dot(normal, p));
    }
    return support;
  }

  Result<Setting> setting_of(const LineEnds& ends) {
    Setting setting;
    std::vector<BlockLine> lines;
    std::size_t first = 0;
    for (const std::size_t last : ends) {
      const TextPiece &from = list_.pieces[first], &to = list_.pieces[last - 1];
      const LineStyle& style = style_of(first);
      first = last;
      Result<ShapedLine> line = typesetter_.part_of(wholes_[from.passage], from.begin, to.end, style.text);
      if (!line) return line.fault();
      lines.push_back({std::move(*line), style.size, style.cap_height, style.x_height});
      setting.styles.push_back(list_.passages[from.passage].style);
    }
    setting.block = build_block(typesetter_, std::move(lines), rules_.block);
    const Arrangement arrangement{{}, {}, setting.block.ink, setting.block.anchor};
    double largest = 0;
    for (const BlockLine& line : setting.block.lines) {
      if (!line.shaped.ink.empty()) largest = std::max(largest, line.size * line.cap_height);
    }
    Wish wish = wish_for(arrangement, largest, rules_, area_);
    wish.for_middle = size_tie;  // a board a hair narrower at one end must not draw its text there
    const ClearArea& area = area_.area;
    const auto support = [&](Point normal) { return ordinatio::support_of(setting.block, normal); };
    const auto placement = area.obstacles.empty() ? largest_copy(support, setting.block.ink, area.region, wish)
                                                  : largest_copy(line_hulls(setting.block), area, wish);
    if (!placement) return no_room(area_);
    setting.placement = *placement;
    setting.changes = changes_of(list_, ends);
    return setting;
  }

  Typesetter& typesetter_;
  const std::vector<StyledLine>& lines_;
  const SettingRules& rules_;
  const SettingArea& area_;
  TextPassages list_;
  std::vector<ShapedLine> wholes_;  // of the passages
  Bounds box_;                      // of the region
  std::vector<double> heights_;     // see least_height(), by rows − 1
  std::vector<std::optional<LineCandidate>> candidates_;
  double top_ = 0, bottom_ = 0;       // em; of the first line's and the last line's ink, at the least
  double tallest_ = 0, deepest_ = 0;  // em; of any line's ink, at the most
  MaybeFault fault_;
};

}  // namespace

Result<Setting> set_lines(Typesetter& typesetter, const std::vector<StyledLine>& lines, const SettingRules& rules,
                          const SettingArea& area) {
  return Setter(typesetter, lines, rules, area).set();
}

}  // namespace ordinatio
