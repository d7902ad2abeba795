#include <algorithm>
#include <cmath>

#include "blanks/blank_cells.h"
#include "csv/cells.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

constexpr double trace_tolerance = 0.005;  // mm between a traced curve and its edges: a twentieth of a 0.1 mm beam
/// An outline that was traced with a pen has its inside as a hole; a drilled hole is never so large.
constexpr double largest_hole = 0.5;

constexpr const char* point_form = "Write the corners in turn, such as 0,0 150,0 148,99 3,101";

Bounds box_of(const Polygon& polygon) {
  Bounds box;
  for (const Point p : polygon) box.add(p);
  return box;
}

Result<Point> read_point(std::string_view word) {
  const Fault fault{shown(word) + " is no point", "",
                    "a point is x and y in mm, parted by a comma, with decimal points", point_form};
  const std::size_t comma = word.find(',');
  if (comma == std::string_view::npos) return fault;
  const auto x = parse_number(word.substr(0, comma)), y = parse_number(word.substr(comma + 1));
  if (!x || !y) return fault;
  if (std::max(std::abs(*x), std::abs(*y)) > length_limit) {
    return Fault{shown(word) + " is no point of a piece", "",
                 "more than " + mm_text(length_limit) + " is taken for a slip of the pen", point_form};
  }
  return Point{*x, *y};
}

std::string edge_text(const Polygon& polygon, std::size_t edge) {
  std::string text;
  for (const std::size_t i : {edge, (edge + 1) % polygon.size()}) {
    text += text.empty() ? "" : " to ";
    append_number(text, polygon[i].x, 2);
    text += ',';
    append_number(text, polygon[i].y, 2);
  }
  return text;
}

Fault crossing(const std::string& why) {
  return {"the outline crosses itself", "", why, "Go round the piece once, corner by corner"};
}

/// The polygon on the grid, counter-clockwise, without spikes and doubled corners.
Result<Polygon> plain(const Polygon& polygon) {
  Polygons welded = weld({polygon}, piece_grid);
  std::erase_if(welded, [](const Polygon& contour) { return std::abs(area_of(contour)) < least_area; });
  if (welded.empty()) {
    return Fault{"the outline has no area", "", "its corners lie in one line, or on one another", point_form};
  }
  if (const auto edges_met = crossing_edges(polygon)) {
    return crossing("the edge " + edge_text(polygon, edges_met->first) + " meets the edge " +
                    edge_text(polygon, edges_met->second));
  }
  // Turning twice about the same place, or either way about two, it covers another area than it goes round.
  if (welded.size() > 1 || std::abs(area_of(welded) - std::abs(area_of(polygon))) > least_area) {
    return crossing("it touches itself at a corner, or goes round a place twice");
  }
  if (parts_of(welded) != 1) return crossing("it hangs together by less than " + mm_text(least_measure));
  return std::move(welded.front());
}

}  // namespace

Result<Polygon> read_polygon(std::string_view cell) {
  std::string spaced(cell);
  std::ranges::replace(spaced, ';', ' ');
  Polygon polygon;
  for (const std::string& word : words_in(spaced)) {
    const auto point = read_point(word);
    if (!point.ok()) return point.fault();
    polygon.push_back(*point);
    if (polygon.size() > corner_limit + 1) break;  // shape_of refuses it
  }
  if (polygon.size() > 1 && polygon.front() == polygon.back()) polygon.pop_back();
  if (polygon.size() < 3) return Fault{"the outline has fewer than three corners", "", "", point_form};
  return polygon;
}

Result<Polygon> largest_shape(const Logo& drawing, std::size_t& passed_over) {
  const Polygons contours = polygons_of(drawing.fill, trace_tolerance);
  for (const Polygon& contour : contours) {
    if (contour.size() > corner_limit) continue;  // shape_of refuses it
    if (const auto edges_met = crossing_edges(contour)) {
      return crossing("the edge " + edge_text(contour, edges_met->first) + " meets the edge " +
                      edge_text(contour, edges_met->second));
    }
  }
  Polygons shapes = weld(contours, piece_grid);
  const auto largest = std::ranges::max_element(shapes, {}, [](const Polygon& shape) { return area_of(shape); });
  if (largest == shapes.end() || area_of(*largest) <= 0) {
    return Fault{"the drawing has no filled shape", "", "", "Draw the piece as one dark, filled path, in mm"};
  }
  for (const Polygon& shape : shapes) {
    if (-area_of(shape) < largest_hole * area_of(*largest)) continue;
    return Fault{"the drawing shows the piece as a line", "", "which edge of the line is the piece's cannot be told",
                 "Give its path a dark fill and no stroke"};
  }
  passed_over = shapes.size() - 1;
  return std::move(*largest);
}

Result<Shape> shape_of(const Polygon& polygon) {
  if (polygon.size() > corner_limit) {
    return Fault{"the outline has more than " + std::to_string(corner_limit) + " corners", "",
                 "no piece needs so many, and each costs time on every item", "Trace the piece more coarsely"};
  }
  Result<Polygon> piece = plain(polygon);
  if (!piece.ok()) return piece.fault();
  const Bounds box = box_of(*piece);
  if (std::min(box.width(), box.height()) < least_side) {
    return Fault{"the outline is too small", "", "no piece is less than " + mm_text(least_side) + " wide or high",
                 "Write millimetres"};
  }
  const Point shift{-box.left, -box.bottom};
  for (Point& p : *piece) p = p + shift;
  Shape shape{{hull_of(*piece).vertices, {}}, {}, box.width(), box.height(), shift};
  shape.pockets = difference({shape.outline.vertices}, {*piece}, piece_grid);
  std::erase_if(shape.pockets, [](const Polygon& pocket) { return area_of(pocket) < least_area; });
  if (std::ranges::any_of(shape.pockets, [](const Polygon& pocket) { return crossing_edges(pocket).has_value(); })) {
    return crossing("it touches itself between two corners");
  }
  return shape;
}

}  // namespace ordinatio::inline blanks
