#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <numbers>

#include "strokes/simplify.h"
#include "strokes/strokes.h"

namespace ordinatio::inline strokes {
namespace {

constexpr double fine = 0.0005;  // mm: chords of curves, and of the arcs that an offset has
constexpr double grid = 1e-5;    // mm
constexpr std::size_t none = static_cast<std::size_t>(-1);

/// Where a row meets the edge.
struct RowEnd {
  long row = 0;
  Point at;                                  // turned, so that rows are level
  std::size_t contour = 0, edge = 0;         // the corner that the edge starts from
  std::size_t across = none;                 // the row's other end
  std::size_t next = none, previous = none;  // along the edge, inside on its left
};

/// A way along the edge from one row's end to another's.
struct EdgeWay {
  std::size_t to = none;
  bool forward = true;
};

class RowWeaver {
 public:
  RowWeaver(Polygons turned, double pitch) : contours_(std::move(turned)), pitch_(pitch) {}

  /// False: too many.
  bool cut() {
    for (std::size_t c = 0; c < contours_.size(); ++c) {
      if (!cut(c)) return false;
    }
    std::map<long, std::vector<std::size_t>> rows;
    for (std::size_t i = 0; i < ends_.size(); ++i) rows[ends_[i].row].push_back(i);
    for (auto& [row, met] : rows) {
      std::ranges::stable_sort(met, {}, [this](std::size_t i) { return ends_[i].at.x; });
      for (std::size_t i = 0; i + 1 < met.size(); i += 2) {
        ends_[met[i]].across = met[i + 1];
        ends_[met[i + 1]].across = met[i];
        lefts_.push_back(met[i]);
      }
    }
    return true;
  }

  /// Strokes as chains of row ends: in and out of a row, then in and out of the next. One that cannot grow at either end has no
  /// free row beside it, so no two of them could be joined afterwards.
  void weave() {
    used_.assign(ends_.size(), false);
    for (const std::size_t left : lefts_) {
      if (used_[left]) continue;
      std::deque<std::size_t> stroke{left, ends_[left].across};
      used_[left] = used_[ends_[left].across] = true;
      while (grow(stroke, stroke.back(), true)) {
      }
      while (grow(stroke, stroke.front(), false)) {
      }
      strokes_.push_back(std::move(stroke));
    }
  }

  [[nodiscard]] Path path(const Transform& back) const {
    Path path;
    for (const auto& stroke : strokes_) {
      path.move_to(back(ends_[stroke.front()].at));
      for (std::size_t i = 1; i < stroke.size(); ++i) {
        if (i % 2 == 0) follow_edge(path, stroke[i - 1], stroke[i], back);
        path.line_to(back(ends_[stroke[i]].at));
      }
    }
    return path;
  }

 private:
  bool cut(std::size_t c) {
    const Polygon& corners = contours_[c];
    const std::size_t first = ends_.size();
    for (std::size_t e = 0; e < corners.size(); ++e) {
      const Point a = corners[e], b = corners[(e + 1) % corners.size()];
      // Row k runs at (k + ½)·pitch. A corner on a row counts as below it, so that each contour meets it an even number of times.
      const auto above = [this](double y) { return static_cast<long>(std::ceil(y / pitch_ - 0.5)); };
      const long from = above(a.y), to = above(b.y);
      if (ends_.size() + static_cast<std::size_t>(std::abs(to - from)) > row_end_limit) return false;
      for (long k = from; k < to; ++k) add(c, e, a, b, k);
      for (long k = from; k > to; --k) add(c, e, a, b, k - 1);
    }
    for (std::size_t i = first; i < ends_.size(); ++i) {
      ends_[i].next = i + 1 < ends_.size() ? i + 1 : first;
      ends_[i].previous = i > first ? i - 1 : ends_.size() - 1;
    }
    return true;
  }

  void add(std::size_t c, std::size_t e, Point a, Point b, long row) {
    const double y = (static_cast<double>(row) + 0.5) * pitch_;
    const double t = std::clamp((y - a.y) / (b.y - a.y), 0.0, 1.0);
    ends_.push_back({row, {a.x + t * (b.x - a.x), y}, c, e});
  }

  /// The corners between two neighbouring ends, from the first to the second of them.
  [[nodiscard]] Polygon corners_between(std::size_t from, std::size_t to, bool forward) const {
    if (!forward) {
      Polygon corners = corners_between(to, from, true);
      std::ranges::reverse(corners);
      return corners;
    }
    const Polygon& contour = contours_[ends_[from].contour];
    Polygon corners;
    std::size_t e = ends_[from].edge;
    // Two ends on one edge: there are no corners between, or, where the way leads round, all of them.
    const bool round = e == ends_[to].edge && to <= from;
    for (bool first = round; first || e != ends_[to].edge; first = false) {
      e = (e + 1) % contour.size();
      corners.push_back(contour[e]);
    }
    return corners;
  }

  [[nodiscard]] double way(std::size_t from, const EdgeWay& join) const {
    double sum = 0;
    Point here = ends_[from].at;
    for (const Point p : corners_between(from, join.to, join.forward)) sum += length(p - here), here = p;
    return sum + length(ends_[join.to].at - here);
  }

  [[nodiscard]] bool is_short(std::size_t from, const EdgeWay& join) const {
    return join.to != from && way(from, join) <= join_limit * pitch_;
  }

  /// The next row from the end of a stroke: the one above if it may be, else one beside or below.
  [[nodiscard]] std::size_t next_row(std::size_t end) const {
    std::size_t best = none;
    for (const EdgeWay join : {EdgeWay{ends_[end].next, true}, EdgeWay{ends_[end].previous, false}}) {
      if (used_[join.to] || !is_short(end, join)) continue;
      if (best == none || ends_[join.to].row > ends_[best].row) best = join.to;
    }
    return best;
  }

  bool grow(std::deque<std::size_t>& stroke, std::size_t end, bool at_back) {
    const std::size_t in = next_row(end);
    if (in == none) return false;
    const std::size_t out = ends_[in].across;
    used_[in] = used_[out] = true;
    if (at_back) {
      stroke.push_back(in), stroke.push_back(out);
    } else {
      stroke.push_front(in), stroke.push_front(out);
    }
    return true;
  }

  void follow_edge(Path& path, std::size_t from, std::size_t to, const Transform& back) const {
    const bool forward =
        ends_[from].next == to && (ends_[from].previous != to || way(from, {to, true}) <= way(from, {to, false}));
    for (const Point p : corners_between(from, to, forward)) path.line_to(back(p));
  }

  Polygons contours_;
  double pitch_;
  std::vector<RowEnd> ends_;
  std::vector<std::size_t> lefts_;  // of all rows, from the lowest
  std::vector<bool> used_;
  std::vector<std::deque<std::size_t>> strokes_;
};

Transform turn_by(double degrees) {
  const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  return {c, s, -s, c, 0, 0};
}

}  // namespace

Polygons spot_area(const Path& ink, double spot) {
  const Polygons covered = weld(polygons_of(ink, fine), grid);
  Polygons area;
  for (const Polygon& contour : offset(covered, -(spot / 2 + hatch_margin), Join::mitre, fine)) {
    if (Polygon corners = simplified(contour, edge_tolerance); !corners.empty()) area.push_back(std::move(corners));
  }
  return weld(area, grid);
}

Result<Path> hatch_rows(const Polygons& area, double angle, double pitch) {
  const Transform level = turn_by(-angle);
  Polygons turned = area;
  for (Polygon& contour : turned) std::ranges::transform(contour, contour.begin(), level);
  RowWeaver weaver(std::move(turned), pitch);
  if (!weaver.cut()) {
    return Fault{"the hatch would have more than " + std::to_string(row_end_limit / 2) + " rows", "",
                 "its pitch is too small for so large an area", "Write a larger pitch"};
  }
  weaver.weave();
  return weaver.path(turn_by(angle));
}

Result<Path> hatched(const Path& ink, const Hatch& hatch) {
  const Polygons area = spot_area(ink, hatch.spot);
  Path lines;
  if (hatch.outline) lines = path_of(area);
  for (int i = 0; i < hatch.directions; ++i) {
    const Result<Path> rows = hatch_rows(area, hatch.angle + 90 * i, hatch.pitch);
    if (!rows.ok()) return rows.fault();
    lines.append(*rows);
  }
  return lines;
}

}  // namespace ordinatio::inline strokes
