#include <algorithm>
#include <array>
#include <cmath>

#include "write/dxf_tags.h"
#include "write/write.h"

namespace ordinatio::inline write {
namespace {

/// What is drawn as one entity: a flattened contour on its operation's layer.
struct Contour {
  std::string_view layer;
  Polyline line;
};

/// Points as they will stand in the file, in whole 0.0001 mm: those that fall together become one.
Polyline without_doubles(Polyline line) {
  const auto same = [](Point a, Point b) {
    constexpr double last_place = 1e-4;
    if (std::abs(a.x - b.x) > last_place || std::abs(a.y - b.y) > last_place) return false;
    return std::llround(a.x / last_place) == std::llround(b.x / last_place) &&
           std::llround(a.y / last_place) == std::llround(b.y / last_place);
  };
  line.points.erase(std::unique(line.points.begin(), line.points.end(), same), line.points.end());
  while (line.closed && line.points.size() > 1 && same(line.points.front(), line.points.back())) line.points.pop_back();
  return line;
}

std::string_view layer_of(const SheetPart& part) {
  return part.layer.empty() ? dxf_layer(part.operation) : std::string_view(part.layer);
}

std::vector<DxfLayer> layers_of(const Sheet& sheet) {
  std::vector<DxfLayer> layers;
  layers.reserve(all_operations.size() + sheet.parts.size());
  for (const Operation operation : all_operations) {
    layers.push_back({dxf_layer(operation), sheet.frame.plan.palette.index_of(operation)});
  }
  for (const SheetPart& part : sheet.parts) {
    if (std::ranges::find(layers, layer_of(part), &DxfLayer::name) != layers.end()) continue;
    layers.push_back({part.layer, sheet.frame.plan.palette.index_of(part.operation)});
  }
  return layers;
}

std::vector<Contour> contours_of(const Sheet& sheet, double tolerance) {
  std::vector<Contour> contours;
  for (const SheetPart& part : sheet.parts) {
    for (Polyline& line : flatten(part.path, tolerance)) {
      contours.push_back({layer_of(part), without_doubles(std::move(line))});
      if (contours.back().line.points.size() < 2) contours.pop_back();  // a speck smaller than the file's last place
    }
  }
  return contours;
}

Bounds bounds_of(const std::vector<Contour>& contours) {
  Bounds bounds;
  for (const Contour& contour : contours) {
    for (const Point p : contour.line.points) bounds.add(p);
  }
  return bounds.empty() ? Bounds{0, 0, 0, 0} : bounds;
}

void append_contour_r12(DxfTags& tags, const Contour& contour) {
  const std::string_view layer = contour.layer;
  tags.text(0, "POLYLINE").text(8, layer).number(66, 1).point(10, {0, 0}, true).number(70, contour.line.closed ? 1 : 0);
  const std::string head = "0\r\nVERTEX\r\n8\r\n" + std::string(layer) + "\r\n10\r\n";
  for (const Point p : contour.line.points) tags.point_after(head, p, "\r\n20\r\n");
  tags.text(0, "SEQEND").text(8, layer);
}

void append_contour_r2000(DxfTags& tags, const Contour& contour) {
  tags.text(0, "LWPOLYLINE").handle(tags.next_handle()).owner(DxfTags::model_space);
  tags.text(100, "AcDbEntity").text(8, contour.layer).text(100, "AcDbPolyline");
  tags.number(90, static_cast<int>(contour.line.points.size())).number(70, contour.line.closed ? 1 : 0);
  for (const Point p : contour.line.points) tags.point_after("10\r\n", p, "\r\n20\r\n");
}

std::size_t size_guess(const std::vector<Contour>& contours) {
  std::size_t points = 0;
  for (const Contour& contour : contours) points += contour.line.points.size();
  return 16384 + contours.size() * 120 + points * 66;
}

}  // namespace

std::string_view dxf_layer(Operation operation) {
  constexpr std::array<std::string_view, all_operations.size()> names{"ENGRAVE", "SCORE", "CUT", "MARK", "GUIDE"};
  return names[static_cast<std::size_t>(operation)];
}

std::string write_dxf(const Sheet& sheet, const DxfOptions& options) {
  const std::vector<Contour> contours = contours_of(sheet, options.tolerance);
  DxfTags tags(size_guess(contours));
  const bool r12 = options.version == DxfVersion::r12;
  r12 ? append_head_r12(tags, layers_of(sheet), bounds_of(contours))
      : append_head_r2000(tags, layers_of(sheet), bounds_of(contours));
  tags.text(0, "SECTION").text(2, "ENTITIES");
  for (const Contour& contour : contours) r12 ? append_contour_r12(tags, contour) : append_contour_r2000(tags, contour);
  tags.text(0, "ENDSEC");
  if (!r12) append_objects_r2000(tags);
  tags.text(0, "EOF");
  return std::move(tags).take();
}

}  // namespace ordinatio::inline write
