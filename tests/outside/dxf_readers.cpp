// DXF files as programs of others read them: nothing to complain of, and the same drawing that the model holds.
// Sources: ezdxf 0.18 (Debian: python3-ezdxf), reader and auditor; GDAL/OGR 3.6 (Debian: gdal-bin), DXF driver;
// the bound on segments: G. Wang, "The subdivision method for finding the intersection between two Bézier curves or
// surfaces", Zhejiang University Journal, 1984.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "bed/settings_card.h"
#include "composed_sheet.h"
#include "dxf_drawing.h"
#include "write/write.h"

using namespace ordinatio;
using namespace outside;

namespace {

/// One contour of the model with what the file may make of it.
struct Wanted {
  std::string layer;
  bool closed = false;
  std::size_t most_points = 1;
  Polygon samples;  // on its curves
};

/// ⌈√(d(d−1)·max|Δ²P| / 8ε)⌉, at least 1.
std::size_t wang_bound(std::span<const Point> control, double tolerance) {
  const double degree = static_cast<double>(control.size()) - 1;
  double bend = 0;
  for (std::size_t i = 2; i < control.size(); ++i) {
    const Point d = control[i] - 2 * control[i - 1] + control[i - 2];
    bend = std::max(bend, std::hypot(d.x, d.y));
  }
  return static_cast<std::size_t>(std::max(1.0, std::ceil(std::sqrt(degree * (degree - 1) * bend / (8 * tolerance)))));
}

/// De Casteljau's construction.
Point on_curve(std::vector<Point> control, double t) {
  for (; control.size() > 1; control.pop_back()) {
    for (std::size_t i = 0; i + 1 < control.size(); ++i) control[i] = (1 - t) * control[i] + t * control[i + 1];
  }
  return control.front();
}

std::string layer_of(Operation operation) {
  std::string name(name_of(operation));
  for (char& c : name) c = static_cast<char>(c - 'a' + 'A');
  return name;
}

std::string layer_of(const SheetPart& part) { return part.layer.empty() ? layer_of(part.operation) : part.layer; }

std::vector<Wanted> wanted_of(const Sheet& sheet, double tolerance) {
  std::vector<Wanted> all;
  for (const SheetPart& part : sheet.parts) {
    const Point* next = part.path.points().data();
    Point start, here;
    for (const Path::Verb verb : part.path.verbs()) {
      if (verb == Path::Verb::move) {
        start = here = *next++;
        all.push_back({layer_of(part), false, 1, {start}});
      } else if (verb == Path::Verb::close) {
        all.back().closed = true;
        all.back().samples.push_back(0.5 * (here + start));
        if (here == start) --all.back().most_points;  // the start is not said twice
      } else {
        const auto degree = static_cast<std::size_t>(verb);
        std::vector<Point> control{here};
        control.insert(control.end(), next, next + degree);
        all.back().most_points += wang_bound(control, tolerance);
        for (int i = 1; i <= 7; ++i) all.back().samples.push_back(on_curve(control, i / 7.0));
        next += degree;
        here = next[-1];
      }
    }
  }
  return all;
}

double distance_to(const DrawnContour& contour, Point p) {
  double nearest = 1e300;
  const std::size_t count = contour.points.size();
  for (std::size_t i = contour.closed ? 0 : 1; i < count; ++i) {
    const Point a = contour.points[(i + count - 1) % count], ab = contour.points[i] - a;
    const double along = std::clamp(dot(p - a, ab) / dot(ab, ab), 0.0, 1.0);
    nearest = std::min(nearest, length(p - a - along * ab));
  }
  return nearest;
}

double farthest(const DrawnContour& contour, const Polygon& samples) {
  double most = 0;
  for (const Point p : samples) most = std::max(most, distance_to(contour, p));
  return most;
}

Bounds bounds_of_points(const std::vector<DrawnContour>& contours) {
  Bounds bounds;
  for (const DrawnContour& contour : contours) {
    for (const Point p : contour.points) bounds.add(p);
  }
  return bounds;
}

Bounds bounds_of_model(const Sheet& sheet) {
  Bounds bounds;
  for (const SheetPart& part : sheet.parts) bounds.add(bounds_of(part.path));
  return bounds;
}

void check_same_box(const Bounds& a, const Bounds& b, double within) {
  CHECK(std::abs(a.left - b.left) <= within);
  CHECK(std::abs(a.bottom - b.bottom) <= within);
  CHECK(std::abs(a.right - b.right) <= within);
  CHECK(std::abs(a.top - b.top) <= within);
}

constexpr double last_place = 1e-4;  // mm, of the file's coordinates

struct Form {
  const char* name;
  DxfOptions options;
  const char *version, *entity;
};
const Form forms[] = {{"R12", {DxfVersion::r12, 0.01}, "AC1009", "POLYLINE"},
                      {"R12 and coarse", {DxfVersion::r12, 0.1}, "AC1009", "POLYLINE"},
                      {"R2000", {DxfVersion::r2000, 0.01}, "AC1015", "LWPOLYLINE"},
                      {"R2000 and fine", {DxfVersion::r2000, 0.001}, "AC1015", "LWPOLYLINE"}};

/// A sheet in one of the forms, as both programs read it.
struct Reading {
  std::string name;
  const Sheet* sheet = nullptr;
  Form form;
  DxfDrawing by_ezdxf;
  OgrDrawing by_ogr;
};

Sheet settings_card() {
  const TrialValues speeds = *read_trial_values("speed", "100, 250.5, 400 mm/s");
  return *build_settings_card({80, 60, speeds, *read_trial_values("power", "20 to 80 by 20 %"), {}}, BedPlan{});
}

struct NamedSheet {
  const char* name;
  Sheet sheet;
  bool in_all_forms;
};

/// Made once: every reading starts two programs.
const std::vector<Reading>& readings() {
  static const NamedSheet sheets[] = {{"rich, ", rich_sheet(), true},
                                      {"asymmetric, ", asymmetric_sheet(), true},
                                      {"lines, ", lines_sheet(), false},
                                      {"settings card, ", settings_card(), false}};
  static const std::vector<Reading> all = [] {
    const Scratch scratch;
    std::vector<Reading> made;
    for (const auto& [name, sheet, in_all_forms] : sheets) {
      for (const Form& form : forms) {
        if (!in_all_forms && form.options.tolerance != 0.01) continue;
        save(scratch / "sheet.dxf", write_dxf(sheet, form.options));
        made.push_back({std::string(name) + form.name, &sheet, form, read_by_ezdxf(scratch / "sheet.dxf"),
                        read_by_ogr(scratch / "sheet.dxf")});
      }
    }
    return made;
  }();
  return all;
}

}  // namespace

TEST_CASE("ezdxf finds nothing to complain of and nothing to mend") {
  for (const Reading& reading : readings()) {
    INFO(reading.name);
    const DxfDrawing& drawing = reading.by_ezdxf;
    CHECK(drawing.errors.empty());
    CHECK(drawing.fixes.empty());
    CHECK(drawing.version == reading.form.version);
    CHECK(drawing.units == 4);  // millimetres
    CHECK(drawing.metric == 1);
    for (const Operation operation : all_operations) CHECK(drawing.layers.contains(layer_of(operation)));
    std::set<std::string> own;
    for (const SheetPart& part : reading.sheet->parts) {
      if (!part.layer.empty()) own.insert(part.layer);
    }
    for (const std::string& layer : own) CHECK(drawing.layers.contains(layer));
    // "0", and Defpoints, which ezdxf adds itself
    CHECK(drawing.layers.size() == all_operations.size() + 2 + own.size());
  }
}

TEST_CASE("ezdxf does complain of a file that is damaged") {
  const Scratch scratch;
  std::string dxf = write_dxf(asymmetric_sheet(), {DxfVersion::r2000, 0.01});
  save(scratch / "sheet.dxf", dxf.replace(dxf.find("ENGRAVE", dxf.find("ENTITIES")), 7, "EN<RAVE"));
  const DxfDrawing drawing = read_by_ezdxf(scratch / "sheet.dxf");
  CHECK(drawing.errors.size() + drawing.fixes.size() > 0);
  save(scratch / "sheet.dxf", dxf.substr(0, dxf.size() / 2));
  CHECK_THROWS(read_by_ezdxf(scratch / "sheet.dxf"));
}

TEST_CASE("ezdxf reads the model's contours: layers, order, closed or not, within the tolerance, no point too many") {
  for (const Reading& reading : readings()) {
    INFO(reading.name);
    const double tolerance = reading.form.options.tolerance;
    const std::vector<Wanted> wanted = wanted_of(*reading.sheet, tolerance);
    REQUIRE(reading.by_ezdxf.contours.size() == wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      INFO("contour " << i << " on " << wanted[i].layer);
      const DrawnContour& contour = reading.by_ezdxf.contours[i];
      CHECK(contour.type == reading.form.entity);
      CHECK(contour.layer == wanted[i].layer);
      CHECK(contour.closed == wanted[i].closed);
      CHECK(contour.straight);
      CHECK(farthest(contour, wanted[i].samples) <= tolerance + last_place);
      CHECK(contour.points.size() <= wanted[i].most_points);
    }
  }
}

TEST_CASE("GDAL reads the same contours on the same layers") {
  for (const Reading& reading : readings()) {
    INFO(reading.name);
    const auto& by_ogr = reading.by_ogr.contours;
    std::vector<DrawnContour> by_ezdxf = reading.by_ezdxf.contours;
    // A stroke that goes round ends where it began, and is open; GDAL has no other word for what closes.
    for (DrawnContour& contour : by_ezdxf) {
      if (contour.closed || contour.points.front() != contour.points.back()) continue;
      contour.closed = true;
      contour.points.pop_back();
    }
    CHECK(reading.by_ogr.features == by_ezdxf.size());
    REQUIRE(by_ogr.size() == by_ezdxf.size());
    for (std::size_t i = 0; i < by_ogr.size(); ++i) {
      INFO("contour " << i);
      CHECK(by_ogr[i].type == "LineString");
      CHECK(by_ogr[i].layer == by_ezdxf[i].layer);
      CHECK(by_ogr[i].closed == by_ezdxf[i].closed);
      REQUIRE(by_ogr[i].points.size() == by_ezdxf[i].points.size());
      double apart = 0;
      for (std::size_t j = 0; j < by_ogr[i].points.size(); ++j) {
        apart = std::max(apart, length(by_ogr[i].points[j] - by_ezdxf[i].points[j]));
      }
      CHECK(apart < 1e-6);  // the places that GDAL was asked for
    }
  }
}

TEST_CASE("the header, ezdxf, GDAL and the model tell the same extents") {
  for (const Reading& reading : readings()) {
    INFO(reading.name);
    const Bounds& header = reading.by_ezdxf.extents;
    check_same_box(header, bounds_of_points(reading.by_ezdxf.contours), 1e-9);
    check_same_box(header, reading.by_ogr.extents, 1e-6);
    check_same_box(header, bounds_of_model(*reading.sheet), reading.form.options.tolerance + last_place);
  }
}
