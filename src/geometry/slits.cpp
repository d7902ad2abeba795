#include <algorithm>
#include <limits>

#include "geometry/medial.h"

namespace ordinatio::inline geometry {
namespace {

constexpr double growth =
    1.05;  // of the widths that a slit's reach is kept for: so much is its depth too large at most
constexpr double level = 1.0005;  // of a neck's radius: walls that are as far apart are one slit
constexpr double none = std::numeric_limits<double>::infinity();

/// Probes along the outline, each with its neighbours.
class Outlines {
 public:
  Outlines(const Boundary& boundary, const std::vector<Probe>& probes) : boundary_(boundary), probes_(probes) {
    for (std::size_t first = 0, last = 0; first < probes.size(); first = last) {
      while (last < probes.size() && contour_of(last) == contour_of(first)) ++last;
      double length = 0;
      for (std::size_t i = first; i < last; ++i) length += probes[i].to - probes[i].from;
      for (std::size_t i = first; i < last; ++i) spans_.push_back({first, last, length});
    }
  }

  /// The probe that stands for a place.
  [[nodiscard]] std::size_t at(const NeckPlace::Foot& foot) const {
    const auto found = std::ranges::lower_bound(probes_, std::pair(foot.side, foot.along), {},
                                                [](const Probe& probe) { return std::pair(probe.side, probe.to); });
    return std::min(static_cast<std::size_t>(found - probes_.begin()), probes_.size() - 1);
  }

  /// The next one on the contour, or the one before; nothing where the outline goes on without probes.
  [[nodiscard]] std::optional<std::size_t> beside(std::size_t index, bool forward) const {
    const auto [first, last, length] = spans_[index];
    const std::size_t other = forward ? (index + 1 == last ? first : index + 1) : (index == first ? last : index) - 1;
    const std::size_t before = forward ? index : other, after = forward ? other : index;
    const std::size_t side = probes_[before].side, next_side = probes_[after].side;
    const bool follows = (side == next_side && before < after) || boundary_.sides[side].next == next_side;
    return follows ? std::optional(other) : std::nullopt;
  }

  [[nodiscard]] double length_around(std::size_t index) const { return spans_[index].length; }

 private:
  [[nodiscard]] std::size_t contour_of(std::size_t index) const { return boundary_.sides[probes_[index].side].contour; }

  const Boundary& boundary_;
  const std::vector<Probe>& probes_;
  struct Span {
    std::size_t first, last;
    double length;
  };
  std::vector<Span> spans_;  // of each probe's contour
};

bool encloses(const Boundary& boundary, std::size_t contour, Point p) {
  bool inside = false;
  const bool is_last = contour + 1 == boundary.firsts.size();
  const std::size_t last = is_last ? boundary.sides.size() : boundary.firsts[contour + 1];
  for (std::size_t i = boundary.firsts[contour]; i < last; ++i) {
    const Point a = boundary.sides[i].from, b = boundary.sides[boundary.sides[i].next].from;
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
  }
  return inside;
}

/// Which contours bound closed counters: their outer edges, which seen from the gap turn counter-clockwise, and ink inside.
std::vector<bool> counters_of(const Boundary& boundary, const std::vector<Probe>& discs, double seam) {
  const std::size_t count = boundary.firsts.size();
  std::vector<bool> counters(count), bounding(count);
  for (std::size_t i = 0; i < count; ++i) counters[i] = boundary.areas[i] > 0;
  for (const Probe& disc : discs) {
    if (2 * disc.ball.radius < seam) counters[boundary.sides[disc.side].contour] = false;
  }
  for (std::size_t i = 0; i < count; ++i) {
    bounding[i] = counters[i];
    for (std::size_t k = 0; k < count && !bounding[i]; ++k)
      bounding[i] = counters[k] && encloses(boundary, k, boundary.sides[boundary.firsts[i]].from);
  }
  return bounding;
}

class SlitSearch {
 public:
  SlitSearch(const Boundary& boundary, const std::vector<Probe>& probes)
      : probes_(probes), outlines_(boundary, probes), is_foot_(probes.size()) {}

  /// Whether a narrower neck lies in the same slit.
  [[nodiscard]] bool is_known(const NeckPlace& neck) const {
    return any_foot_near(outlines_.at(neck.p), neck.gauge.width) ||
           any_foot_near(outlines_.at(neck.q), neck.gauge.width);
  }

  /// The shorter of its two walls: what the longer one has besides lies open.
  std::vector<Slit::Reach> reaches_of(const NeckPlace& neck) {
    const std::size_t p = outlines_.at(neck.p), q = outlines_.at(neck.q);
    is_foot_[p] = is_foot_[q] = true;
    const std::vector<Slit::Reach> from_p = reaches_from(p), from_q = reaches_from(q);
    std::vector<Slit::Reach> reaches;
    for (const auto* own : {&from_p, &from_q}) {
      const std::vector<Slit::Reach>& other = own == &from_p ? from_q : from_p;
      for (const Slit::Reach& reach : *own)
        reaches.push_back({reach.width, std::min(reach.length, length_under(other, reach.width))});
    }
    std::ranges::sort(reaches, {}, &Slit::Reach::width);
    return thinned(reaches);
  }

  [[nodiscard]] double length_around(const Probe& disc) const {
    return outlines_.length_around(outlines_.at({disc.side, (disc.from + disc.to) / 2}));
  }

 private:
  static double length_under(const std::vector<Slit::Reach>& reaches, double width) {
    return std::ranges::lower_bound(reaches, width, {}, &Slit::Reach::width)->length;
  }

  [[nodiscard]] double width_at(std::size_t probe) const {
    return probes_[probe].ball.stopped ? 2 * probes_[probe].ball.radius : none;
  }

  [[nodiscard]] bool any_foot_near(std::size_t probe, double width) const {
    if (is_foot_[probe]) return true;
    for (const bool forward : {false, true}) {
      for (auto next = outlines_.beside(probe, forward); next && *next != probe;
           next = outlines_.beside(*next, forward)) {
        if (width_at(*next) > level * width) break;
        if (is_foot_[*next]) return true;
      }
    }
    return false;
  }

  /// One way along the outline: the length to the first place of each width.
  [[nodiscard]] std::vector<Slit::Reach> walk(std::size_t start, bool forward) const {
    std::vector<Slit::Reach> reaches;
    double length = 0, widest = 0;
    for (auto next = outlines_.beside(start, forward); next && *next != start;
         next = outlines_.beside(*next, forward)) {
      const double width = width_at(*next);
      if (width > widest) reaches.push_back({width, length});
      widest = std::max(widest, width);
      if (width == none) return reaches;
      length += probes_[*next].to - probes_[*next].from;
    }
    reaches.push_back({none, length});
    return reaches;
  }

  [[nodiscard]] std::vector<Slit::Reach> reaches_from(std::size_t start) const {
    const std::vector<Slit::Reach> before = walk(start, false), after = walk(start, true);
    const double own = probes_[start].to - probes_[start].from;
    std::vector<Slit::Reach> reaches;
    for (const auto* ways : {&before, &after}) {
      for (const Slit::Reach& reach : *ways) {
        const double both = own + length_under(before, reach.width) + length_under(after, reach.width);
        reaches.push_back({reach.width, std::min(both, outlines_.length_around(start))});  // ways that meet
      }
    }
    std::ranges::sort(reaches, {}, &Slit::Reach::width);
    return reaches;
  }

  /// Widths that are nearly the same have the longest reach of theirs.
  static std::vector<Slit::Reach> thinned(const std::vector<Slit::Reach>& reaches) {
    std::vector<Slit::Reach> kept;
    double begun = 0;
    for (const Slit::Reach& reach : reaches) {
      if (!kept.empty() && (reach.width == kept.back().width || (reach.width < growth * begun && reach.width < none))) {
        kept.back() = reach;
        continue;
      }
      kept.push_back(reach);
      begun = reach.width;
    }
    return kept;
  }

  const std::vector<Probe>& probes_;
  Outlines outlines_;
  std::vector<char> is_foot_;  // of a slit that is known
};

}  // namespace

std::vector<Slit> slits_of(const Boundary& boundary, const std::vector<Probe>& probes,
                           const std::vector<NeckPlace>& necks, const std::vector<Probe>& discs,
                           const GaugeRules& rules) {
  std::vector<Slit> slits;
  if (probes.empty()) return slits;
  const std::vector<bool> closed = counters_of(boundary, discs, rules.seam);
  SlitSearch search(boundary, probes);
  for (const NeckPlace& neck : necks) {
    if (search.is_known(neck)) continue;
    slits.push_back({neck.gauge, closed[boundary.sides[neck.p.side].contour], search.reaches_of(neck)});
  }
  for (const Probe& disc : discs) {
    if (2 * disc.ball.radius >= rules.seam) continue;
    slits.push_back({{disc.ball.centre, 2 * disc.ball.radius}, false, {{none, search.length_around(disc)}}});
  }
  std::ranges::stable_sort(slits, {}, [](const Slit& slit) { return slit.gauge.width; });
  return slits;
}

double depth_under(const Slit& slit, double width) {
  if (slit.gauge.width >= width) return 0;
  return std::ranges::lower_bound(slit.reaches, width, {}, &Slit::Reach::width)->length / 2;
}

}  // namespace ordinatio::inline geometry
