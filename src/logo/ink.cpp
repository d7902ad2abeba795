#include <algorithm>
#include <cmath>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

constexpr double grid_part = 1.0 / 64;       // of the tolerance: rounding stays far below what flattening gives away
constexpr double touching = 4;               // tolerances; shapes nearer than this are welded, or a seam would show
constexpr double hair_steps = 4;             // of the grid
constexpr std::size_t curve_paints = 2'000;  // beyond it all is welded: to find who meets whom takes the square of it

Bounds bounds_of(const Polygons& polygons) {
  Bounds bounds;
  for (const Polygon& polygon : polygons)
    for (const Point p : polygon) bounds.add(p);
  return bounds;
}

bool contains(const Bounds& outer, const Bounds& inner) {
  return outer.left <= inner.left && inner.right <= outer.right && outer.bottom <= inner.bottom &&
         inner.top <= outer.top;
}

Bounds grown(Bounds bounds, double by) {
  return {bounds.left - by, bounds.bottom - by, bounds.right + by, bounds.top + by};
}

bool is_inside(Point p, const Polygon& polygon) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Point a = polygon[i], b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
  }
  return inside;
}

std::vector<Path> contours_of(const Path& path) {
  std::vector<Path> contours;
  const Point* point = path.points().data();
  for (const Path::Verb verb : path.verbs()) {
    if (verb == Path::Verb::move) contours.emplace_back().move_to(*point++);
    if (verb == Path::Verb::line) contours.back().line_to(*point++);
    if (verb == Path::Verb::cubic) contours.back().cubic_to(point[0], point[1], point[2]), point += 3;
    if (verb == Path::Verb::close) contours.back().close();
  }
  return contours;
}

/// The largest factor by which the transform lengthens anything (its greater singular value).
double stretch(const Transform& t) {
  const double sum = t.xx * t.xx + t.xy * t.xy + t.yx * t.yx + t.yy * t.yy;
  const double det = t.determinant();
  return std::sqrt((sum + std::sqrt(std::max(sum * sum - 4 * det * det, 0.0))) / 2);
}

/// A paint's share of the page, as a region and, while they are still whole, as the curves it was drawn with.
struct Inked {
  Polygons region;
  Bounds bounds;
  std::optional<Path> curves;
  bool dark;
};

class Inker {
 public:
  explicit Inker(const Drawing& drawing)
      : drawing_(drawing),
        tolerance_(std::hypot(drawing.box.width(), drawing.box.height()) * ink_tolerance),
        grid_(tolerance_ * grid_part),
        clips_(drawing.clips.size()) {}

  Result<Logo> ink() {
    std::vector<Inked> paints;
    for (const Paint& paint : drawing_.paints) {
      auto inked = ink_one(paint);
      if (!inked.ok()) return inked.fault();
      if (!inked->region.empty()) paints.push_back(*std::move(inked));
    }
    Logo logo{{}, drawing_.box};
    keep_curves(paints, logo.fill);
    logo.fill.append(path_of(compose(paints)));
    if (logo.fill.empty())
      return Fault{
          "the logo cannot be engraved", {}, "there is no dark ink on its page", "Draw it in black, inside the page"};
    return logo;
  }

  Result<Bounds> reach() {
    Bounds reach;
    for (const Paint& paint : drawing_.paints) {
      if (!paint.dark || contains(drawing_.box, at_most(paint))) continue;
      auto inked = drawn(paint);
      if (!inked.ok()) return inked.fault();
      for (auto clip = paint.clip; clip; clip = drawing_.clips[*clip].outer)
        if (!is_page(*clip) && !cut(*inked, region_of(*clip))) break;
      reach.add(inked->bounds);
    }
    return reach;
  }

 private:
  /// Nothing of the paint lies outside of it.
  [[nodiscard]] static Bounds at_most(const Paint& paint) {
    const Bounds bounds = ordinatio::bounds_of(transformed(paint.path, paint.to_mm));
    if (!paint.pen || bounds.empty()) return bounds;
    return grown(bounds, paint.pen->width * std::max(paint.pen->mitre_limit, 1.5) * stretch(paint.to_mm));
  }
  /// The outermost clip is the page itself, which librsvg clips to.
  [[nodiscard]] bool is_page(std::size_t clip) const {
    const double slack = page_slack * std::max(drawing_.box.width(), drawing_.box.height());
    const Bounds bounds = ordinatio::bounds_of(drawing_.clips[clip].path);
    return !drawing_.clips[clip].outer && contains(grown(drawing_.box, slack), bounds) &&
           contains(grown(bounds, slack), drawing_.box);
  }

  Result<Inked> ink_one(const Paint& paint) {
    auto inked = drawn(paint);
    if (!inked.ok()) return inked;
    for (auto clip = paint.clip; clip; clip = drawing_.clips[*clip].outer)
      if (!cut(*inked, region_of(*clip))) break;
    cut(*inked, Polygons{polygon_of_box(drawing_.box)});
    return inked;
  }

  /// Before anything is clipped.
  Result<Inked> drawn(const Paint& paint) {
    Inked inked{{}, {}, std::nullopt, paint.dark};
    if (paint.pen) {
      auto outlines = stroke_outlines(paint.path, *paint.pen, tolerance_ / stretch(paint.to_mm));
      if (!outlines.ok()) return outlines.fault();
      for (Polygon& outline : *outlines) std::ranges::transform(outline, outline.begin(), paint.to_mm);
      inked.region = weld(*outlines, grid_);
    } else {
      const Path path = transformed(paint.path, paint.to_mm);
      inked.region = weld(polygons_of(path, tolerance_), grid_, paint.rule);
      inked.curves = as_curves(path, inked.region);
    }
    inked.bounds = bounds_of(inked.region);
    return inked;
  }

  const Polygons& region_of(std::size_t clip) {
    if (!clips_[clip])
      clips_[clip] = weld(polygons_of(drawing_.clips[clip].path, tolerance_), grid_, drawing_.clips[clip].rule);
    return *clips_[clip];
  }

  /// Cuts off what lies outside the frame. Whether anything is left.
  bool cut(Inked& inked, const Polygons& frame) const {
    const Bounds outer = bounds_of(frame);
    const bool whole = frame.size() == 1 && frame[0].size() == 4 &&
                       std::abs(area_of(frame) - outer.width() * outer.height()) < grid_ * grid_;
    if (whole && contains(grown(outer, grid_), inked.bounds)) return true;
    inked.region = intersection(inked.region, frame, grid_);
    inked.bounds = bounds_of(inked.region);
    inked.curves.reset();
    return !inked.region.empty();
  }

  /// The path with outer contours counter-clockwise and holes clockwise, if its contours neither cross nor cover one
  /// another: then their areas add up to the region's.
  [[nodiscard]] std::optional<Path> as_curves(const Path& path, const Polygons& region) const {
    std::vector<Path> contours = contours_of(path);
    Polygons polygons;
    for (const Path& contour : contours) {
      const auto flat = polygons_of(contour, tolerance_);
      polygons.push_back(flat.empty() ? Polygon{} : flat.front());
    }
    Path curves;
    double area = 0;
    for (std::size_t i = 0; i < contours.size(); ++i) {
      if (polygons[i].size() < 3) continue;
      const auto around = std::ranges::count_if(
          polygons, [&](const Polygon& other) { return &other != &polygons[i] && is_inside(polygons[i][0], other); });
      const double signed_area = area_of(polygons[i]);
      const bool hole = around % 2 == 1;
      curves.append((signed_area < 0) == hole ? contours[i] : reversed(contours[i]));
      area += hole ? -std::abs(signed_area) : std::abs(signed_area);
    }
    const double rounding = grid_ * (length_of(region) + grid_);
    return std::abs(area - area_of(region)) <= rounding ? std::optional(curves) : std::nullopt;
  }

  static double length_of(const Polygons& polygons) {
    double sum = 0;
    for (const Polygon& polygon : polygons)
      for (std::size_t i = 0; i < polygon.size(); ++i) sum += length(polygon[(i + 1) % polygon.size()] - polygon[i]);
    return sum;
  }

  /// Moves the curves of every dark paint that meets no other into the fill.
  void keep_curves(std::vector<Inked>& paints, Path& fill) const {
    if (paints.size() > curve_paints) return;
    std::vector<bool> alone(paints.size());
    for (std::size_t i = 0; i < paints.size(); ++i)
      alone[i] = paints[i].dark && paints[i].curves && meets_none(paints, i);
    for (std::size_t i = 0; i < paints.size(); ++i)
      if (alone[i]) fill.append(*paints[i].curves);
    std::size_t i = 0;
    std::erase_if(paints, [&](const Inked&) { return alone[i++]; });
  }

  [[nodiscard]] bool meets_none(const std::vector<Inked>& paints, std::size_t one) const {
    const double distance = touching * tolerance_;
    const Bounds near = grown(paints[one].bounds, distance);
    std::optional<Polygons> wide;
    for (std::size_t i = 0; i < paints.size(); ++i) {
      if (i == one || !overlap(near, paints[i].bounds)) continue;
      if (!wide) wide = offset(paints[one].region, distance, Join::bevel, tolerance_);
      if (!intersection(*wide, paints[i].region, grid_).empty()) return false;
    }
    return true;
  }

  /// In painting order: runs of dark paint are welded to the ink, runs of light paint taken from it.
  [[nodiscard]] Polygons compose(const std::vector<Inked>& paints) const {
    Polygons ink;
    for (std::size_t i = 0; i < paints.size();) {
      const bool dark = paints[i].dark;
      Polygons run;
      for (; i < paints.size() && paints[i].dark == dark; ++i)
        run.insert(run.end(), paints[i].region.begin(), paints[i].region.end());
      if (dark) run.insert(run.end(), ink.begin(), ink.end());
      if (dark || !ink.empty()) ink = dark ? weld(run, grid_) : difference(ink, run, grid_);
    }
    return joined(ink);
  }

  /// Shapes that only share an edge are still apart after the weld: a hair outwards and back makes them one.
  [[nodiscard]] Polygons joined(const Polygons& ink) const {
    const double hair = hair_steps * grid_;
    return offset(offset(ink, hair, Join::mitre, tolerance_), -hair, Join::mitre, tolerance_);
  }

  const Drawing& drawing_;
  double tolerance_, grid_;  // mm
  std::vector<std::optional<Polygons>> clips_;
};

}  // namespace

Result<Logo> ink_of(const Drawing& drawing) { return Inker(drawing).ink(); }

Result<Bounds> reach_of(const Drawing& drawing) { return Inker(drawing).reach(); }

}  // namespace ordinatio::inline logo
