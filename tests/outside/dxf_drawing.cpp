#include "dxf_drawing.h"

#include <nlohmann/json.hpp>

#include "base/base.h"
#include "composed_sheet.h"

namespace outside {
namespace fs = std::filesystem;
using namespace ordinatio;
namespace {

using Json = nlohmann::json;

Polygon points_in(const Json& json) {
  Polygon points;
  for (const Json& point : json) points.push_back({point.at(0), point.at(1)});
  return points;
}

}  // namespace

DxfDrawing read_by_ezdxf(const fs::path& dxf) {
  const Json json = Json::parse(output_of(std::string(PYTHON " " TEST_FOLDER "/outside/read_dxf.py ") + quoted(dxf)));
  DxfDrawing drawing{json.at("version"), json.at("errors"),
                     json.at("fixes"),   json.at("units"),
                     json.at("metric"),  {},
                     json.at("layers"),  {}};
  const Json& extents = json.at("extents");
  drawing.extents = {extents.at(0), extents.at(1), extents.at(2), extents.at(3)};
  for (const Json& contour : json.at("contours")) {
    drawing.contours.push_back({contour.at("type"), contour.at("layer"), contour.at("closed"), contour.at("straight"),
                                points_in(contour.at("points"))});
  }
  return drawing;
}

OgrDrawing read_by_ogr(const fs::path& dxf) {
  OgrDrawing drawing;
  const std::string summary = output_of("ogrinfo -ro -al -so " + quoted(dxf));
  drawing.features = static_cast<std::size_t>(numbers_after(summary, "Feature Count: ", 1).at(0));
  const auto box = numbers_after(summary, "Extent: ", 4);
  drawing.extents = {box.at(0), box.at(1), box.at(2), box.at(3)};

  const Json json = Json::parse(output_of("ogr2ogr -f GeoJSON -lco COORDINATE_PRECISION=6 /vsistdout/ " + quoted(dxf)));
  for (const Json& feature : json.at("features")) {
    const Json& geometry = feature.at("geometry");
    DrawnContour contour{geometry.at("type"), feature.at("properties").at("Layer"), false, true,
                         points_in(geometry.at("coordinates"))};
    contour.closed = contour.points.size() > 2 && contour.points.front() == contour.points.back();
    if (contour.closed) contour.points.pop_back();
    drawing.contours.push_back(std::move(contour));
  }
  return drawing;
}

}  // namespace outside
