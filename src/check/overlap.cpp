#include "check/overlap.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "check/check.h"
#include "check/cubic.h"

namespace ordinatio::inline check {
namespace {

constexpr double overlap_chord = 0.002;  // mm; a tenth of what a beam of 0.1 mm could show
constexpr double grid = 1e-5;            // mm
/// A followed line may come so far into other ink, mm: letters that graze one another are not welded, and half a beam's
/// width shows nothing.
constexpr double line_slack = 0.05;

/// Contours that meet, directly or by others, have the same number.
class Clusters {
 public:
  explicit Clusters(std::size_t count) : parents_(count) {
    std::iota(parents_.begin(), parents_.end(), std::size_t{0});
  }
  std::size_t of(std::size_t i) {
    while (parents_[i] != i) i = parents_[i] = parents_[parents_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) { parents_[of(b)] = of(a); }

 private:
  std::vector<std::size_t> parents_;
};

/// mm² that are filled by one rule and not by the other.
double disputed_area(const Polygons& polygons) {
  return std::abs(area_of(weld(polygons, grid, FillRule::nonzero)) - area_of(weld(polygons, grid, FillRule::even_odd)));
}

double distance_to(const Polygon& polygon, Point p) {
  double least = 1e300;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], along = polygon[(i + 1) % polygon.size()] - a;
    const double square = dot(along, along);
    const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
    least = std::min(least, length(p - (a + t * along)));
  }
  return least;
}

class OverlapSearch {
 public:
  explicit OverlapSearch(const std::vector<ContourShape>& shapes) : shapes_(shapes), clusters_(shapes.size()) {
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      for (std::size_t k = i + 1; k < shapes.size(); ++k) {
        if (meet(shapes[i], shapes[k])) note_meeting(i, k);
      }
    }
  }

  Overlap run() {
    overlap_.area = disputed();
    for (std::size_t i = 0; i < shapes_.size(); ++i) {
      if (!shapes_[i].filled) overlap_.depth = std::max(overlap_.depth, depth_of(i));
    }
    return overlap_;
  }

 private:
  using Members = std::vector<std::size_t>;

  void note_meeting(std::size_t i, std::size_t k) {
    if (shapes_[i].filled && shapes_[k].filled) clusters_.join(i, k);
    if (!shapes_[i].filled) met_[i].push_back(k);
    if (!shapes_[k].filled) met_[k].push_back(i);
  }

  /// How often filled contours of other clusters go round a contour's start: none of them goes through it.
  int turns_outside(std::size_t i) {
    const std::size_t own = clusters_.of(i);
    int turns = 0;
    for (std::size_t k = 0; k < shapes_.size(); ++k) {
      if (shapes_[k].filled && shapes_[k].box.holds(shapes_[i].start) && clusters_.of(k) != own) {
        turns += turns_around(shapes_[k], shapes_[i].start);
      }
    }
    return turns;
  }

  [[nodiscard]] double disputed_among(const Members& members) const {
    Polygons polygons;
    for (const std::size_t i : members) {
      if (shapes_[i].closed) polygons.push_back(chords_of(shapes_[i], overlap_chord));
    }
    return disputed_area(polygons);
  }

  /// A contour alone must begin ink where there is none, or end it where there is; those that meet are judged by area.
  double disputed() {
    std::map<std::size_t, Members> clusters;
    Members filled;
    for (std::size_t i = 0; i < shapes_.size(); ++i) {
      if (!shapes_[i].filled) continue;
      filled.push_back(i);
      clusters[clusters_.of(i)].push_back(i);
    }
    double area = 0;
    for (const auto& [root, members] : clusters) {
      const int turns = turns_outside(members.front());
      const bool alone = members.size() == 1;
      if (alone ? turns != (shapes_[root].left_turning ? 0 : 1) : turns != 0) return disputed_among(filled);
      if (!alone) area += disputed_among(members);
    }
    return area;
  }

  /// How deep a followed line comes into ink that is filled, or across another line that closes.
  double depth_of(std::size_t i) {
    const Polygon line = chords_of(shapes_[i], overlap_chord);
    double depth = 0;
    bool meets_ink = false;
    if (const auto met = met_.find(i); met != met_.end()) {
      for (const std::size_t other : met->second) {
        meets_ink |= shapes_[other].filled;
        if (shapes_[other].closed && !shapes_[other].filled) {
          depth = std::max(depth, depth_beside(line, shapes_[other]));
        }
      }
    }
    // A line that meets no ink lies in it whole or not at all.
    return std::max(depth, depth_in_ink(meets_ink ? samples_of(line) : std::vector{line.front()}, i));
  }

  [[nodiscard]] double depth_in_ink(const std::vector<Point>& samples, std::size_t own) const {
    std::vector<const ContourShape*> near;
    for (const ContourShape& shape : shapes_) {
      if (shape.filled && shape.closed && overlap(shape.box, shapes_[own].box)) near.push_back(&shape);
    }
    double depth = 0;
    for (const Point p : samples) {
      int turns = 0;
      for (const ContourShape* shape : near) turns += turns_around(*shape, p);
      if (turns == 0) continue;
      double to_edge = 1e300;
      for (const ContourShape* shape : near)
        to_edge = std::min(to_edge, distance_to(chords_of(*shape, overlap_chord), p));
      depth = std::max(depth, to_edge);
    }
    return depth;
  }

  /// Of two lines that cross, how far one reaches to the lesser side of the other.
  static double depth_beside(const Polygon& line, const ContourShape& other) {
    const Polygon edge = chords_of(other, overlap_chord);
    double inside = 0, outside = 0;
    for (const Point p : samples_of(line)) {
      double& side = turns_around(other, p) != 0 ? inside : outside;
      side = std::max(side, distance_to(edge, p));
    }
    return std::min(inside, outside);
  }

  static std::vector<Point> samples_of(const Polygon& line) {
    std::vector<Point> samples(line);
    for (std::size_t i = 0; i + 1 < line.size(); ++i) samples.push_back(0.5 * (line[i] + line[i + 1]));
    return samples;
  }

  const std::vector<ContourShape>& shapes_;
  Clusters clusters_;
  std::map<std::size_t, std::vector<std::size_t>> met_;  // by followed lines
  Overlap overlap_;
};

}  // namespace

Overlap overlap_of(const std::vector<ContourShape>& shapes) { return OverlapSearch(shapes).run(); }

InkApart::InkApart(const Expectation& expectation) : items_(expectation.sheet.items.size()) {
  for (const ExpectedPart& part : expectation.parts) {
    if (part.item && part.part->operation != Operation::guide) ++items_[*part.item].layers_left;
  }
}

void InkApart::take(const ExpectedPart& expected, const Path& found, double area, std::size_t line) {
  if (!expected.item || expected.part->operation == Operation::guide) return;
  Gathered& item = items_[*expected.item];
  const bool filled = is_filled(expected.part->operation), is_last = --item.layers_left == 0;
  if (filled) item.area += std::abs(area);
  append_shapes(item.shapes, is_last ? found : item.earlier.emplace_back(found), filled);
  if (!is_last) return;
  const Overlap overlap = overlap_of(item.shapes);
  if (overlap.area > area_share * item.area) {
    throw Difference{"item " + expected.part->id + ": ink lies over ink, " + spoken(overlap.area) +
                         " mm² that one machine fills and another leaves out",
                     line};
  }
  if (overlap.depth > line_slack) {
    throw Difference{"item " + expected.part->id + ": a line runs " + spoken(overlap.depth) + " mm into other ink",
                     line};
  }
  item = {};
}

}  // namespace ordinatio::inline check
