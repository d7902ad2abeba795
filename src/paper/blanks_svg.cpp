#include <algorithm>

#include "paper/paper.h"
#include "write/write.h"
#include "write/xml.h"

namespace ordinatio::inline paper {
namespace {

constexpr int svg_places = 3;  // 0.001 mm, as on sheets
constexpr std::size_t boxes_a_row = 10;
constexpr double apart = 10;      // mm between pieces, and around them
constexpr double box_line = 0.2;  // mm

/// Where pieces lie: rows from the top down, each as high as its highest piece, all standing on its foot.
struct PieceRows {
  std::vector<Point> feet;  // lower-left corners, mm, y up
  double width = apart, height = apart;
};

PieceRows arranged(const std::vector<Bounds>& boxes) {
  PieceRows all;
  double depth = apart;  // from the upper edge down
  for (std::size_t first = 0; first < boxes.size(); first += boxes_a_row) {
    const std::size_t end = std::min(first + boxes_a_row, boxes.size());
    double x = apart, highest = 0;
    for (std::size_t i = first; i < end; ++i) highest = std::max(highest, boxes[i].height());
    depth += highest;
    for (std::size_t i = first; i < end; ++i) {
      all.feet.push_back({x, -depth});
      x += boxes[i].width() + apart;
    }
    all.width = std::max(all.width, x);
    depth += apart;
  }
  all.height = depth;
  for (Point& foot : all.feet) foot.y += depth;
  return all;
}

void append_path(std::string& out, const Path& path, double height, const char* attributes) {
  out += "      <path d=\"";
  append_path_data(out, path, height);
  out += '"';
  out += attributes;
  out += "/>\n";
}

void append_piece(std::string& out, const BlankPicture& piece, Point foot, double height) {
  out += "    <g id=\"piece-" + xml_id(piece.blank.id) + "\">\n      <title>" + escaped(piece.blank.id) + "</title>\n";
  append_path(out, transformed(path_of(piece.blank), shift_by(foot)), height, "");
  Polygons things;
  for (const KeptClear& thing : piece.blank.kept_clear) {
    for (Polygon& polygon : outline_of(thing)) things.push_back(std::move(polygon));
  }
  if (!things.empty()) {
    append_path(out, transformed(path_of(things), shift_by(foot)), height, " stroke-dasharray=\"1.2 0.8\"");
  }
  out += "    </g>\n";
}

}  // namespace

std::string write_blanks_svg(const std::vector<BlankPicture>& pieces) {
  std::vector<Bounds> boxes;
  boxes.reserve(pieces.size());
  for (const BlankPicture& piece : pieces) boxes.push_back(bounds_of(path_of(piece.blank.outline)));
  const PieceRows all = arranged(boxes);
  std::string out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"";
  append_number(out, all.width, svg_places);
  out += "mm\" height=\"";
  append_number(out, all.height, svg_places);
  out += "mm\" viewBox=\"0 0 ";
  append_number(out, all.width, svg_places);
  out += ' ';
  append_number(out, all.height, svg_places);
  out += "\">\n  <title>Blanks</title>\n  <g id=\"pieces\" fill=\"none\" stroke=\"#1A1A1A\"";
  append_attribute(out, "stroke-width", box_line, svg_places);
  out += ">\n    <title>pieces, at true size</title>\n";
  for (std::size_t i = 0; i < pieces.size(); ++i) append_piece(out, pieces[i], all.feet[i], all.height);
  out += "  </g>\n</svg>\n";
  return out;
}

}  // namespace ordinatio::inline paper
