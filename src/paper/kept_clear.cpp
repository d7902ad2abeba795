#include "paper/kept_clear.h"

#include <algorithm>

namespace ordinatio::inline paper {
namespace {

constexpr double kept_clear_line = 0.15, name_size = 2.6;  // mm

Point centroid_of(const Polygon& convex) {
  Point sum;
  double area = 0;
  for (std::size_t i = 1; i + 1 < convex.size(); ++i) {
    const double share = cross(convex[i] - convex[0], convex[i + 1] - convex[0]);
    sum = sum + share / 3 * (convex[0] + convex[i] + convex[i + 1]);
    area += share;
  }
  return 1 / area * sum;
}

void draw_name(Canvas& canvas, Lettering& lettering, const std::string& name, const Polygons& outline, Colour colour) {
  const auto area = [](const ConvexHull& piece) { return area_of(piece.vertices); };
  const std::vector<ConvexHull> pieces = convex_pieces(outline);
  if (name.empty() || pieces.empty()) return;
  const Polygon& room = std::ranges::max_element(pieces, {}, area)->vertices;
  const ConvexRegion inside = region_of(room);
  const SetLine line = lettering.set(name, name_size);
  const Point half{line.width() / 2, 0.35 * name_size}, middle = centroid_of(room);  // letters stand some 0.7 em tall
  for (const Point corner : {half, {half.x, -half.y}, {-half.x, half.y}, {-half.x, -half.y}}) {
    if (distance_outside(inside, middle + corner) > 0) return;
  }
  lettering.draw(canvas, line, middle - half, colour);
}

}  // namespace

void draw_kept_clear(Canvas& canvas, Lettering& lettering, const std::vector<KeptClear>& things,
                     const Transform& to_page, Colour colour) {
  for (const KeptClear& thing : things) {
    Polygons outline = outline_of(thing);
    for (Polygon& polygon : outline) {
      for (Point& p : polygon) p = to_page(p);
      if (to_page.determinant() < 0) std::ranges::reverse(polygon);
    }
    canvas.stroke(path_of(outline), {kept_clear_line, colour, {1.2, 0.8}});
    draw_name(canvas, lettering, thing.name, outline, colour);
  }
}

}  // namespace ordinatio::inline paper
