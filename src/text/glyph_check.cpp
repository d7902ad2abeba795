#include "text/glyph_check.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "text/face_limits.h"
#include "text/gauges.h"

namespace ordinatio::inline text {
namespace {

/// How much there is to an outline, from its control points alone.
struct Amount {
  double girth = 0;  // em; of the control polygon, which is no shorter than the outline
  std::size_t edges = 0;
};

Amount amount_of(const Path& path) {
  Amount amount;
  const Point* next = path.points().data();
  Point here;
  for (const Path::Verb verb : path.verbs()) {
    if (verb == Path::Verb::close) continue;
    if (verb == Path::Verb::move) {
      here = *next++;
      continue;
    }
    std::array<Point, 4> control{here};
    const auto degree = static_cast<std::size_t>(verb);
    for (std::size_t i = 1; i <= degree; ++i) {
      control[i] = *next++;
      amount.girth += length(control[i] - control[i - 1]);
    }
    here = control[degree];
    amount.edges +=
        degree == 1 ? 1 : static_cast<std::size_t>(wang_segments({control.data(), degree + 1}, em_rules.chord_error));
  }
  return amount;
}

struct Edge {
  Point from, to;
  double left, right;
};

std::vector<Edge> edges_of(const Path& path) {
  std::vector<Edge> edges;
  for (const Polygon& polygon : polygons_of(path, em_rules.chord_error)) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      edges.push_back({a, b, std::min(a.x, b.x), std::max(a.x, b.x)});
    }
  }
  std::ranges::sort(edges, {}, &Edge::left);
  return edges;
}

bool cross_one_another(const Edge& a, const Edge& b) {
  const auto sides = [](const Edge& edge, const Edge& other) {
    const Point along = edge.to - edge.from;
    return cross(along, other.from - edge.from) * cross(along, other.to - edge.from);
  };
  return sides(a, b) < 0 && sides(b, a) < 0;
}

/// Whether edges cross more often than a letter's do: what they are welded into would have a corner at each.
bool is_tangle(const Path& path) {
  const std::vector<Edge> edges = edges_of(path);
  std::size_t crossings = 0;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    for (std::size_t j = i + 1; j < edges.size() && edges[j].left < edges[i].right; ++j) {
      if (cross_one_another(edges[i], edges[j]) && ++crossings > face_limits::glyph_crossings) return true;
    }
  }
  return false;
}

}  // namespace

std::string damage_of_outline(const Path& path) {
  if (path.points().size() > face_limits::glyph_points) {
    return "an outline has more than " + std::to_string(face_limits::glyph_points) + " points";
  }
  const auto is_near = [](Point p) {  // what is no number is near nothing
    return std::abs(p.x) <= face_limits::glyph_reach && std::abs(p.y) <= face_limits::glyph_reach;
  };
  if (!std::ranges::all_of(path.points(), is_near)) return "an outline reaches far beyond its letter";
  const Amount amount = amount_of(path);
  if (amount.edges > face_limits::glyph_edges || amount.girth > face_limits::glyph_girth) {
    return "an outline is longer than any letter's";
  }
  return is_tangle(path) ? "an outline crosses itself without end" : "";
}

}  // namespace ordinatio::inline text
