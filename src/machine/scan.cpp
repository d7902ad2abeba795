#include "machine/scan.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline machine {
namespace {

/// A crossing in one number, so that sorting is by place: the place in units, and below it whether the edge goes up.
constexpr double grid = 1 << 20;  // a mm; beds of ten metres take 34 bits of the 62
std::int64_t packed(double x, bool up) { return (std::llround(x * grid) << 1) | static_cast<std::int64_t>(up); }
double place_of(std::int64_t crossing) { return static_cast<double>(crossing >> 1) / grid; }
int turn_of(std::int64_t crossing) { return (crossing & 1) != 0 ? 1 : -1; }

/// The first line at y or above it.
std::int64_t line_from(double y, double pitch) { return static_cast<std::int64_t>(std::ceil(y / pitch - 0.5)); }

template <class Work>
void for_each_edge(const Polygons& polygons, Work&& work) {
  for (const Polygon& polygon : polygons) {
    for (std::size_t i = 0; i < polygon.size(); ++i) work(polygon[i], polygon[i + 1 == polygon.size() ? 0 : i + 1]);
  }
}

/// The lines that an edge crosses. Each belongs to the edge's lower end and not to its upper, so that a corner counts once.
struct Crossed {
  std::int64_t from, end;
  Crossed(Point a, Point b, double pitch)
      : from(line_from(std::min(a.y, b.y), pitch)), end(line_from(std::max(a.y, b.y), pitch)) {}
};

/// The ink between crossings in their order; what touches is one.
void add_spans(std::span<const std::int64_t> crossings, std::vector<Span>& spans) {
  const std::size_t begin = spans.size();
  int winding = 0;
  double from = 0;
  for (const std::int64_t crossing : crossings) {
    const double x = place_of(crossing);
    if (winding == 0) from = x;
    winding += turn_of(crossing);
    if (winding != 0 || x <= from) continue;
    if (spans.size() > begin && spans.back().to >= from) {
      spans.back().to = x;
    } else {
      spans.push_back({from, x});
    }
  }
}

}  // namespace

std::span<const Span> ScanLines::line(std::int64_t k) const {
  if (k < first || k >= end()) return {};
  const auto at = static_cast<std::size_t>(k - first);
  return std::span(spans).subspan(starts[at], starts[at + 1] - starts[at]);
}

double crossings_of(const Polygons& polygons, double pitch) {
  double crossings = 0;
  for_each_edge(polygons, [&](Point a, Point b) { crossings += std::abs(b.y - a.y) / pitch; });
  return crossings;
}

ScanLines scan_lines(const Polygons& polygons, double pitch) {
  ScanLines lines;
  Bounds bounds;
  for_each_edge(polygons, [&](Point a, Point) { bounds.add(a); });
  if (bounds.empty()) return lines;
  lines.first = line_from(bounds.bottom, pitch);
  const auto count = static_cast<std::size_t>(std::max<std::int64_t>(0, line_from(bounds.top, pitch) - lines.first));
  if (count == 0) return lines;
  std::vector<std::size_t> ends(count + 1, 0);  // first how many, then where each line's crossings begin
  for_each_edge(polygons, [&](Point a, Point b) {
    const Crossed crossed(a, b, pitch);
    for (std::int64_t k = crossed.from; k < crossed.end; ++k) ++ends[static_cast<std::size_t>(k - lines.first) + 1];
  });
  for (std::size_t i = 1; i <= count; ++i) ends[i] += ends[i - 1];
  std::vector<std::int64_t> crossings(ends[count]);
  std::vector<std::size_t> next(ends.begin(), ends.end() - 1);
  for_each_edge(polygons, [&](Point a, Point b) {
    const Crossed crossed(a, b, pitch);
    if (crossed.from >= crossed.end) return;
    const double slope = (b.x - a.x) / (b.y - a.y);
    for (std::int64_t k = crossed.from; k < crossed.end; ++k) {
      const double y = (static_cast<double>(k) + 0.5) * pitch;
      crossings[next[static_cast<std::size_t>(k - lines.first)]++] = packed(a.x + (y - a.y) * slope, b.y > a.y);
    }
  });
  lines.starts.reserve(count + 1);
  lines.spans.reserve(crossings.size() / 2);
  for (std::size_t i = 0; i < count; ++i) {
    lines.starts.push_back(lines.spans.size());
    const std::span line(crossings.begin() + static_cast<std::ptrdiff_t>(ends[i]), ends[i + 1] - ends[i]);
    std::ranges::sort(line);
    add_spans(line, lines.spans);
  }
  lines.starts.push_back(lines.spans.size());
  return lines;
}

void gather_line(std::span<const ScanLines* const> paths, std::int64_t k, std::vector<Span>& into) {
  into.clear();
  std::size_t parts = 0;
  for (const ScanLines* path : paths) {
    const std::span<const Span> line = path->line(k);
    if (line.empty()) continue;
    into.insert(into.end(), line.begin(), line.end());
    ++parts;
  }
  if (parts < 2) return;
  std::ranges::sort(into, {}, &Span::from);
  std::size_t last = 0;
  for (std::size_t i = 1; i < into.size(); ++i) {
    if (into[i].from <= into[last].to) {
      into[last].to = std::max(into[last].to, into[i].to);
    } else {
      into[++last] = into[i];
    }
  }
  into.resize(last + 1);
}

}  // namespace ordinatio::inline machine
