// In: a DXF file.
// Out: what ezdxf, or GDAL, makes of it. Links none of the program's own DXF code.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "geometry/geometry.h"

namespace outside {

struct DrawnContour {
  std::string type, layer;
  bool closed = false, straight = true;
  ordinatio::Polygon points;
};
struct DxfDrawing {
  std::string version;
  std::vector<std::string> errors, fixes;  // by ezdxf's auditor and by its reader for damaged files
  int units = 0, metric = 0;
  ordinatio::Bounds extents;  // as the header says
  std::map<std::string, int> layers;
  std::vector<DrawnContour> contours;
};

/// Throws std::runtime_error when the program cannot read the file.
DxfDrawing read_by_ezdxf(const std::filesystem::path& dxf);

struct OgrDrawing {
  ordinatio::Bounds extents;  // as ogrinfo tells
  std::size_t features = 0;   // likewise
  std::vector<DrawnContour> contours;
};
/// GDAL/OGR's DXF driver, through ogrinfo and ogr2ogr. A contour is closed when its last point is its first.
OgrDrawing read_by_ogr(const std::filesystem::path& dxf);

}  // namespace outside
