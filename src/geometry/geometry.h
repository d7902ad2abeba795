// In: points, Bézier paths and outlines, in one unit that the caller keeps (ems before the fit, mm after it).
// Out: bounds, areas, flattened and welded paths, hulls, and convex regions to fit things into.
// Never: knows fonts, files or the machine.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace ordinatio::inline geometry {

struct Point {
  double x = 0, y = 0;  // y up
  friend Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend Point operator*(double k, Point p) { return {k * p.x, k * p.y}; }
  friend bool operator==(const Point&, const Point&) = default;
};
inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
inline double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

// ---- path.cpp ----
double length(Point p);

/// An axis-parallel box; empty until a point is added.
struct Bounds {
  double left = 1e300, bottom = 1e300, right = -1e300, top = -1e300;
  [[nodiscard]] bool empty() const { return left > right; }
  [[nodiscard]] double width() const { return empty() ? 0 : right - left; }
  [[nodiscard]] double height() const { return empty() ? 0 : top - bottom; }
  [[nodiscard]] Point centre() const { return {(left + right) / 2, (bottom + top) / 2}; }
  [[nodiscard]] bool holds(Point p) const { return p.x >= left && p.x <= right && p.y >= bottom && p.y <= top; }
  void add(Point p) {  // here, so that a loop over points keeps the box in registers
    left = std::min(left, p.x), right = std::max(right, p.x);
    bottom = std::min(bottom, p.y), top = std::max(top, p.y);
  }
  void add(const Bounds& other);
  [[nodiscard]] Bounds shifted(Point by) const;
  [[nodiscard]] Bounds stretched(double across, double up) const;  // from the origin
  friend bool operator==(const Bounds&, const Bounds&) = default;
};
bool overlap(const Bounds& a, const Bounds& b);  // touching edges do not count

/// x' = xx·x + xy·y + dx, y' = yx·x + yy·y + dy.
struct Transform {
  double xx = 1, yx = 0, xy = 0, yy = 1, dx = 0, dy = 0;
  Point operator()(Point p) const { return {xx * p.x + xy * p.y + dx, yx * p.x + yy * p.y + dy}; }
  [[nodiscard]] double determinant() const { return xx * yy - xy * yx; }
  friend bool operator==(const Transform&, const Transform&) = default;
};
Transform shift_by(Point by);
Transform scale_by(double factor);
Transform quarter_turn();                                         // 90° counter-clockwise about the origin
Transform then(const Transform& first, const Transform& second);  // second after first

/// Contours of lines, quadratic and cubic Béziers. A contour starts with a move and may be closed.
class Path {
 public:
  enum class Verb : std::uint8_t { move, line, quad, cubic, close };
  static constexpr std::size_t points_of(Verb verb) {
    return verb == Verb::close ? 0 : verb == Verb::move ? 1 : static_cast<std::size_t>(verb);
  }

  void move_to(Point p) { add(Verb::move, p); }
  void line_to(Point p) { add(Verb::line, p); }
  void quad_to(Point control, Point end);
  void cubic_to(Point control1, Point control2, Point end);
  void close() { verbs_.push_back(Verb::close); }
  void add_rectangle(const Bounds& box);
  void append(const Path& other, const Transform& by = {});

  [[nodiscard]] bool empty() const { return verbs_.empty(); }
  [[nodiscard]] std::span<const Verb> verbs() const { return verbs_; }
  [[nodiscard]] std::span<const Point> points() const { return points_; }
  friend bool operator==(const Path&, const Path&) = default;

 private:
  void add(Verb verb, Point p) {
    verbs_.push_back(verb);
    points_.push_back(p);
  }
  std::vector<Verb> verbs_;
  std::vector<Point> points_;
};
Path transformed(const Path& path, const Transform& by);
/// Every contour with its direction turned round.
Path reversed(const Path& path);

/// Exact bounds: the extrema of the curves, not of their control points.
Bounds bounds_of(const Path& path);
/// Exact signed area of the closed contours (Green's theorem); counter-clockwise is positive.
double area_of(const Path& path);
/// The centre of gravity of the same area, to rounding; the middle of its box where it has none. What contours cover twice
/// weighs twice.
Point centroid_of(const Path& path);

using Polygon = std::vector<Point>;  // the closing edge is implied
using Polygons = std::vector<Polygon>;
Polygon polygon_of_box(const Bounds& box);  // from the lower left, counter-clockwise
double area_of(const Polygon& polygon);
double area_of(const Polygons& polygons);

// ---- crossing.cpp ----
/// The first two edges of a polygon that cross one another, by the corners that they start from; edges that only touch do
/// not cross. Cost: the square of the corners.
std::optional<std::pair<std::size_t, std::size_t>> crossing_edges(const Polygon& polygon);

struct Polyline {
  Polygon points;
  bool closed = false;
};

// ---- flatten.cpp ----
/// Equal parameter steps that keep a Bézier of the given degree within `tolerance` of its chords:
/// n = ⌈√(d(d−1)·max|Δ²P| / 8ε)⌉ (Wang 1984). At most `segment_limit`; a tolerance ≤ 0 or NaN throws.
int wang_segments(std::span<const Point> control, double tolerance);
inline constexpr int segment_limit = 4096;  // reached only by absurd scales; the file is then coarser, never endless
std::vector<Polyline> flatten(const Path& path, double tolerance);
/// The closed contours of a path as polygons.
Polygons polygons_of(const Path& path, double tolerance);
Path path_of(const Polygons& polygons);

// ---- weld.cpp: weld (Clipper, on an integer grid) ----
enum class FillRule { nonzero, even_odd };
/// Union by the fill rule on a grid of `grid`: outer contours counter-clockwise, holes clockwise, none crossing.
Polygons weld(const Polygons& polygons, double grid, FillRule rule = FillRule::nonzero);
/// Whether contours of the path cross or cover one another so that fill rules would disagree, or two fills
/// overlap. Found by area: the non-zero union differs from the signed sum. Overlaps below (100·tolerance)²
/// are not seen.
bool contours_overlap(const Path& path, double tolerance);
/// Parallel curves of closed polygons: outward for delta > 0, corners mitred up to `mitre_limit` or rounded.
enum class Join { mitre, round, bevel };
Polygons offset(const Polygons& polygons, double delta, Join join, double tolerance);
Polygons intersection(const Polygons& a, const Polygons& b, double grid);
Polygons difference(const Polygons& a, const Polygons& b, double grid);

// ---- hull.cpp: convex things ----
/// Vertices of a convex polygon, counter-clockwise, no three in line; one or two points when it is
/// degenerate.
struct ConvexHull {
  Polygon vertices;
};
ConvexHull hull_of(std::vector<Point> points);
ConvexHull hull_of(const Path& path, double tolerance);

struct HalfPlane {
  Point normal;       // unit
  double offset = 0;  // { p : normal·p ≤ offset }
};

/// The intersection of half-planes.
struct ConvexRegion {
  std::vector<HalfPlane> edges;
};

// ---- region.cpp ----
ConvexRegion region_of(const Polygon& convex);
ConvexRegion intersection(const ConvexRegion& a, const ConvexRegion& b);
/// The region's corners, counter-clockwise; empty when the region is empty or has no area.
Polygon polygon_of(const ConvexRegion& region);
/// How far p lies outside the region (≤ 0: inside, by that much).
double distance_outside(const ConvexRegion& region, Point p);

// ---- convex_cut.cpp: clear areas ----
/// Where something may lie, of any shape: a convex region less convex obstacles, which may touch, overlap and reach
/// beyond it. A convex thing lies in the area exactly if it lies in the region and is parted from each obstacle.
struct ClearArea {
  ConvexRegion region;
  std::vector<ConvexHull> obstacles;  // of at least three corners: what has no area stands in nobody's way
};
/// An area (outer contours counter-clockwise, holes clockwise, none crossing: what weld gives) cut into convex pieces
/// that do not overlap: ears are cut off it (Meisters 1975), then neighbours merged while they stay convex, at most
/// four times as many as need be (Hertel and Mehlhorn 1983). Corners are kept as they are. Where contours cross after
/// all, pieces cover more than the area, never less.
std::vector<ConvexHull> convex_pieces(const Polygons& area);

// ---- clear_area.cpp ----
/// How deep the line from a to b lies inside a convex thing at most, by the distance to its nearest edge; below 0 where
/// it stays outside.
double depth_inside(const ConvexRegion& thing, Point a, Point b);
/// Whether the insides of two convex polygons meet by more than `slack`.
bool overlap(const ConvexHull& a, const ConvexHull& b, double slack);

/// The outline of a blank: a convex polygon, each of its corners left sharp or rounded by a radius of its own.
struct Outline {
  Polygon vertices;           // counter-clockwise, mm
  std::vector<double> radii;  // mm, one a vertex; empty: all sharp
};

// ---- outline.cpp ----
/// The same radius at every corner.
Outline rounded_outline(Polygon vertices, double radius);
enum class Corner { square, rounded, cut };
struct CornerShape {
  Corner kind = Corner::square;
  double across = 0, up = 0;  // mm: a cut takes so much of either side; a rounded corner has the radius `across`
};
Outline rectangle_outline(double width, double height, Corner corner, double corner_size);
/// The corners from the lower left one on, counter-clockwise.
Outline rectangle_outline(double width, double height, const std::array<CornerShape, 4>& corners);

// ---- corner_shapes.cpp ----
/// The shapes by which rectangle_outline makes this outline; nothing where it is no such rectangle of that size.
std::optional<std::array<CornerShape, 4>> corner_shapes_of(const Outline& outline, double width, double height);

// ---- outline.cpp ----
/// Whether the arcs fit on the edges, each taking radius · tan(turn / 2) from both of its own.
bool corners_fit(const Outline& outline);
/// The parallel curve at `distance` inside. Exact, but where an edge between corners of different radii leaves no room
/// for their arcs: there arcs become chords first, at most `arc_sagitta` inside them. Nothing when no area is left.
std::optional<Outline> inset(const Outline& outline, double distance);
/// The outline as drawn: lines, and arcs as cubics (error below 5e-6 of the radius).
Path path_of(const Outline& outline);
/// The outline as half-planes; arcs become chords inside the arc, at most `arc_sagitta` away from it.
ConvexRegion region_of(const Outline& outline);
inline constexpr double arc_sagitta = 0.005;  // mm; what the fit gives away in a rounded corner

// ---- region.cpp ----
bool is_convex(const Polygon& polygon);

}  // namespace ordinatio::inline geometry
