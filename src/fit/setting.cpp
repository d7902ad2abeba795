#include <algorithm>
#include <utility>

#include "fit/kept_lines.h"
#include "fit/line_plan.h"
#include "fit/plan_bounds.h"
#include "fit/setting_work.h"

namespace ordinatio::inline fit {
namespace {

/// Programmes solved to part lines from what is kept clear while the lines of one text are chosen, and again when they are
/// placed, some microseconds each. When it is reached, what is placed from then on takes the first place found for it.
constexpr std::size_t block_node_limit = 60'000;

/// Where a block of this arrangement is wanted, and how large it may be.
Wish wish_for(const Arrangement& arrangement, double largest_cap, const SettingRules& rules, const SettingArea& area) {
  Wish wish{arrangement.anchor, area.target, std::min(rules.max_cap_height, area.most_capitals) / largest_cap,
            rules.off_axis_gain};
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

/// Fits one text, plan by plan.
class Setter {
 public:
  Setter(LineCandidates& lines, const TextPassages& list, const SettingRules& rules, const SettingArea& area)
      : lines_(lines), list_(list), rules_(rules), area_(area) {}

  LineEnds choose(const LineEnds& own) {
    PlanBounds bounds(lines_, list_, rules_, area_);
    const ChosenPlan chosen = best_plan(question(bounds), own);
    work_.fits = chosen.fits;
    work_.looks = chosen.looks;
    work_.limit_reached = chosen.limit_reached || work_.nodes >= block_node_limit;
    return chosen.ends;
  }

  [[nodiscard]] const SettingWork& work() const { return work_; }

  Result<Setting> set(const LineEnds& ends, Typesetter& typesetter) {
    const Arrangement arrangement = arrangement_of(ends);
    Wish wish = wish_for(arrangement, largest_cap(ends, arrangement), rules_, area_);
    wish.for_middle = size_tie;  // a board a hair narrower at one end must not draw its text there
    PartingCost cost;
    auto placement = place(ends, arrangement, wish, cost, block_node_limit);
    if (!placement) return no_room(area_);
    // How far the optical middle may leave the ink's is a matter of size, which it does not change: it is placed once more.
    const std::vector<double>& heights = area_.widths.heights;
    const Wish even = within_even_gaps(wish, arrangement.ink, placement->size, heights.front(), heights.back());
    if (even.anchor.y != wish.anchor.y) placement = place(ends, arrangement, even, cost, block_node_limit);
    if (!placement) return no_room(area_);
    Setting setting = set_as(ends, *placement, typesetter);
    setting.changes = changes_of(list_, ends);
    if (work_.limit_reached) {
      setting.changes.push_back("its lines are the best of " + std::to_string(work_.fits) +
                                " ways to part it: there are too many to try them all");
    }
    return setting;
  }

  /// With these lines in this place.
  Setting set_as(const LineEnds& ends, const Placement& placement, Typesetter& typesetter) {
    Setting setting;
    setting.placement = placement;
    std::vector<BlockLine> lines;
    std::size_t first = 0;
    for (const std::size_t last : ends) {
      const LineStyle& style = lines_.style_of(first);
      setting.styles.push_back(list_.passages[list_.pieces[first].passage].style);
      const ShapedLine& shaped = lines_.line(std::exchange(first, last), last).shaped;
      lines.push_back({shaped, style.size, style.cap_height, style.x_height, setting.styles.back()});
    }
    setting.block = build_block(typesetter, std::move(lines), rules_.block);
    return setting;
  }

 private:
  PlanQuestion question(PlanBounds& bounds) {
    PlanQuestion question;
    const std::size_t count = list_.pieces.size();
    for (std::size_t i = 0; i < count; ++i) {
      const bool last = i + 1 == count || list_.pieces[i + 1].passage != list_.pieces[i].passage;
      const TextPiece& piece = list_.pieces[i];
      question.pieces.push_back({true, last, piece.penalty, piece.alone, piece.pauses});
    }
    question.width = [this](auto first, auto last, double most) { return lines_.width(first, last, most); };
    question.room = [&bounds](auto rows, double size) { return bounds.room(rows, size); };
    question.line_size = [&bounds](auto first, auto last, auto row, auto rows, auto first_end) {
      return bounds.line_size(first, last, row, rows, first_end);
    };
    question.height_size = [&bounds](auto rows, auto first_end, auto last_begin) {
      return bounds.height_size(rows, first_end, last_begin);
    };
    question.size = [this, &bounds](const LineEnds& ends, double worth) { return size_of(ends, bounds, worth); };
    question.reach = [reaches = lines_.reaches()](std::size_t last) { return reaches[last - 1]; };
    question.largest = bounds.largest();
    question.reads_well = area_.for_size_alone ? 0 : rules_.reads_well;
    return question;
  }

  Arrangement arrangement_of(const LineEnds& ends) {
    std::vector<LineMeasure> measures;
    std::size_t first = 0;
    for (const std::size_t last : ends) measures.push_back(lines_.line(std::exchange(first, last), last).measure);
    return arrange(measures, rules_.block);
  }

  [[nodiscard]] double largest_cap(const LineEnds& ends, const Arrangement& arrangement) const {
    double largest = 0;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      if (list_.passages[list_.pieces[ends[i] - 1].passage].blank) continue;
      largest = std::max(largest, arrangement.sizes[i] * lines_.style_of(ends[i] - 1).cap_height);
    }
    return largest;
  }

  PlanFit size_of(const LineEnds& ends, const PlanBounds& bounds, double worth) {
    const Arrangement arrangement = arrangement_of(ends);
    const Wish wish = wish_for(arrangement, largest_cap(ends, arrangement), rules_, area_);
    const double in_box = std::min(wish.largest, bounds.box_size(arrangement.ink));
    if (in_box <= worth) return {in_box, false, false};
    PartingCost cost;
    const auto size = size_over(worth, ends, arrangement, wish, cost);
    work_.nodes += cost.nodes;
    if (size) return {*size, true};
    return {worth, !(worth > 0)};
  }

  /// Where it is more than `least`; among obstacles that is sooner told than where the block lies.
  std::optional<double> size_over(double least, const LineEnds& ends, const Arrangement& arrangement, const Wish& wish,
                                  PartingCost& cost) {
    std::vector<FitRow> rows = all_rows(ends, arrangement);
    if (area_.area.obstacles.empty()) {
      const auto placement = largest_copy(std::move(rows), arrangement.ink, wish);
      return placement ? std::optional(placement->size) : std::nullopt;
    }
    return largest_size_over(least, std::move(rows), arrangement.ink, hulls_of(ends, arrangement), area_.area.obstacles,
                             wish, cost, block_node_limit - std::min(block_node_limit, work_.nodes));
  }

  std::optional<Placement> place(const LineEnds& ends, const Arrangement& arrangement, const Wish& wish,
                                 PartingCost& cost, std::size_t allowed) {
    if (area_.area.obstacles.empty()) return largest_copy(all_rows(ends, arrangement), arrangement.ink, wish);
    const std::vector<FitRow> standing_off = rows_off_neighbours(ends, arrangement);
    return largest_copy_within(hulls_of(ends, arrangement), area_.area, wish, cost, {allowed, standing_off});
  }

  std::vector<FitRow> all_rows(const LineEnds& ends, const Arrangement& arrangement) {
    std::vector<FitRow> rows = rows_of(ends, arrangement);
    const std::vector<FitRow> standing_off = rows_off_neighbours(ends, arrangement);
    rows.insert(rows.end(), standing_off.begin(), standing_off.end());
    return rows;
  }

  /// em of the block, of its largest lettering.
  double x_height(const LineEnds& ends, const Arrangement& arrangement) {
    double largest = 0;
    each_line(ends, [&](LineCandidate&, std::size_t i) {
      largest = std::max(largest, arrangement.sizes[i] * lines_.style_of(ends[i] - 1).x_height);
    });
    return largest;
  }

  std::vector<FitRow> rows_off_neighbours(const LineEnds& ends, const Arrangement& arrangement) {
    std::vector<FitRow> rows;
    if (area_.neighbours.empty()) return rows;
    const double away = x_height(ends, arrangement);
    const Bounds& ink = arrangement.ink;
    for (const HalfPlane& edge : area_.neighbours) {
      const Point corner{edge.normal.x > 0 ? ink.right : ink.left, edge.normal.y > 0 ? ink.top : ink.bottom};
      rows.push_back({dot(edge.normal, corner) + away, edge.normal, edge.offset});
    }
    return rows;
  }

  /// Calls use(line, index) for each line of a plan that has ink.
  template <class Use>
  void each_line(const LineEnds& ends, Use use) {
    std::size_t first = 0;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      LineCandidate& line = lines_.line(std::exchange(first, ends[i]), ends[i]);
      if (!line.measure.ink.empty()) use(line, i);
    }
  }

  std::vector<FitRow> rows_of(const LineEnds& ends, const Arrangement& arrangement) {
    std::vector<FitRow> rows;
    for (const HalfPlane& edge : area_.area.region.edges) rows.push_back({-1e300, edge.normal, edge.offset});
    each_line(ends, [&](LineCandidate& line, std::size_t index) {
      const std::vector<double>& supports = lines_.supports_of(line);
      for (std::size_t i = 0; i < rows.size(); ++i) {
        const double start = dot(rows[i].normal, arrangement.origins[index]);
        rows[i].support = std::max(rows[i].support, start + arrangement.sizes[index] * supports[i]);
      }
    });
    return rows;
  }

  std::vector<ConvexHull> hulls_of(const LineEnds& ends, const Arrangement& arrangement) {
    std::vector<ConvexHull> hulls;
    each_line(ends, [&](LineCandidate& line, std::size_t index) {
      ConvexHull& hull = hulls.emplace_back(lines_.hull_of(line));
      for (Point& p : hull.vertices) p = arrangement.origins[index] + arrangement.sizes[index] * p;
    });
    return hulls;
  }

  LineCandidates& lines_;
  const TextPassages& list_;
  const SettingRules& rules_;
  const SettingArea& area_;
  SettingWork work_;
};

}  // namespace

Result<Setting> PreparedLines::choose_in(const SettingArea& area, SettingWork& work, LineEnds& ends) {
  auto& [typesetter, rules, list, candidates] = *kept_;
  candidates.lie_in(area.area.region);
  Setter setter(candidates, list, rules, area);
  ends = own_ends(list);
  if (ends.size() < list.pieces.size()) ends = setter.choose(ends);
  Result<Setting> setting = setter.set(ends, typesetter);
  work = setter.work();
  if (candidates.fault()) return *candidates.fault();
  return setting;
}

Result<Setting> PreparedLines::set_in(const SettingArea& area, SettingWork& work) {
  LineEnds ends;
  return choose_in(area, work, ends);
}

Result<Setting> PreparedLines::set_in(const SettingArea& area, ChosenSetting& chosen) {
  auto& [typesetter, rules, list, candidates] = *kept_;
  if (chosen.ends.empty()) {
    SettingWork work;
    LineEnds ends;
    Result<Setting> setting = choose_in(area, work, ends);
    if (setting.ok()) chosen = {std::move(ends), setting->placement, setting->changes};
    return setting;
  }
  candidates.lie_in(area.area.region);
  Setting setting = Setter(candidates, list, rules, area).set_as(chosen.ends, chosen.placement, typesetter);
  setting.changes = chosen.changes;
  return setting;
}

}  // namespace ordinatio::inline fit
