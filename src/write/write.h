// In: a sheet.
// Out: what the machine reads, SVG and DXF, and the manifest; the same bytes for the same input.
// Never: decides where anything goes; reads a clock, a locale or an order.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/base.h"
#include "bed/bed.h"

namespace ordinatio::inline write {

struct SvgOptions {
  bool css_pixels = false;  // the same drawing in units of 1/96 inch, for readers that ignore physical size
};

// ---- svg.cpp ----
/// Plain SVG 1.1, true size: width and height in mm, viewBox of the same numbers, one <g> an operation, in it
/// one <g> an item; paths only, Béziers kept, coordinates to 0.001 mm.
std::string write_svg(const Sheet& sheet, const SvgOptions& options = {});

enum class DxfVersion { r12, r2000 };
struct DxfOptions {
  DxfVersion version = DxfVersion::r12;
  double tolerance = curve_tolerance;  // mm, chord error of flattened curves (Wang's bound)
};

// ---- dxf.cpp ----
/// ASCII DXF: closed POLYLINEs (R12) or LWPOLYLINEs (R2000), no bulge, one layer an operation, millimetres.
std::string write_dxf(const Sheet& sheet, const DxfOptions& options = {});

/// What others worked out for the sheet and for its items, by name: it stands in the manifest, and means nothing here.
struct WorkedOut {
  using Figures = std::vector<std::pair<std::string, double>>;
  Figures of_sheet, of_items;
};

// ---- manifest.cpp ----
/// Everything about a sheet that a later remake, or a person, needs: JSON with a checksum of its own.
std::string write_manifest(const Sheet& sheet, const WorkedOut& estimate = {});

// ---- svg.cpp ----
/// SVG path data, absolute commands, to 0.001 mm, y flipped at `height` (y' = height − y).
void append_path_data(std::string& out, const Path& path, double height, double scale = 1);

}  // namespace ordinatio::inline write
