#include "check/tracing.h"

#include <catch2/catch.hpp>

#include "check/check.h"
#include "sheet_by_hand.h"

namespace ordinatio::tracing_test {

namespace {

constexpr double height = 100;

/// A line, a quadratic and a cubic curve, closed.
Path leaf() {
  Path path;
  path.move_to({10, 90});
  path.line_to({20, 90});
  path.quad_to({30, 90}, {30, 80});
  path.cubic_to({30, 70}, {10, 70.5}, {10, 80});
  path.close();
  return path;
}

constexpr const char* leaf_data = "M10 10L20 10Q30 10 30 20C30 30 10 29.5 10 20Z";

Expectation expecting(const Sheet& sheet) { return expectation_of(SheetModel(sheet)); }

DxfPolyline polyline_of(const HandPolyline& hand) {
  DxfPolyline polyline;
  polyline.layer = hand.layer;
  polyline.points = hand.points;
  polyline.flags = hand.closed ? 1 : 0;
  return polyline;
}

bool is_followed(const Expectation& expectation, const std::vector<HandPolyline>& polylines) {
  const FileKind kind{"DXF", ".dxf", 0.0001, 0.01};
  ChordTrace trace(expectation, kind);
  for (const HandPolyline& polyline : polylines) {
    if (!trace.take(polyline_of(polyline))) return false;
  }
  return trace.done();
}

}  // namespace

TEST_CASE("path data spells a path command by command, each point within half the last place") {
  struct Case {
    const char *data, *why;
    bool spells;
  };
  const Case table[] = {
      {leaf_data, "as it is", true},
      {"M10 10L20 10Q30 10 30 20C30 30 10 29.5 10 20Z ", "a blank at the end", false},
      {"M10.0004 10L20 10Q30 10 30 20C30 30 10 29.5 10 20Z", "rounded", true},
      {"M10.001 10L20 10Q30 10 30 20C30 30 10 29.5 10 20Z", "a point a whole place aside", false},
      {"M10 10L20 10.001Q30 10 30 20C30 30 10 29.5 10 20Z", "a point a whole place below", false},
      {"M10 10L20 10Q30.001 10 30 20C30 30 10 29.5 10 20Z", "a control point aside", false},
      {"M10 10L20 10Q30 10 30 20C30 30 10 29.5 10 20.001Z", "the last point aside", false},
      {"M10 10L20 10Q30 10 30 20C30 30 10 29.5 10 20", "left open", false},
      {"M10 10L20 10Q30 10 30 20C30 30 10 29.5 10 20ZM1 1", "more than the path", false},
      {"M10 10L20 10Q30 10 30 20", "less than the path", false},
      {"M10 10L20 10L30 20C30 30 10 29.5 10 20Z", "a line for a curve", false},
      {"M10 10H20Q30 10 30 20C30 30 10 29.5 10 20Z", "another way to say it", false},
      {"M10 10L20 nanQ30 10 30 20C30 30 10 29.5 10 20Z", "no number", false},
      {"", "nothing", false},
  };
  for (const Case& c : table) {
    INFO(c.why);
    CHECK(spells(c.data, leaf(), 1, height, 0.001) == c.spells);
  }
  CHECK(spells("", Path(), 1, height, 0.001));
  CHECK(spells("M20 20L40 20Q60 20 60 40C60 60 20 59 20 40Z", leaf(), 0.5, height, 0.001));
  CHECK_FALSE(spells(leaf_data, leaf(), 1, height + 0.001, 0.001));
}

TEST_CASE("a path is traced by another with the same contours; a quadratic curve may be raised") {
  Path raised_leaf;
  raised_leaf.move_to({10, 90});
  raised_leaf.line_to({20, 90});
  raised_leaf.cubic_to({20 + 20.0 / 3, 90}, {30, 80 + 20.0 / 3}, {30, 80});
  raised_leaf.cubic_to({30, 70}, {10, 70.5}, {10, 80});
  raised_leaf.close();
  CHECK(is_traced(leaf(), leaf(), 1e-9));
  CHECK(is_traced(raised_leaf, leaf(), 1e-9));
  CHECK(is_traced(leaf(), raised_leaf, 1e-9));
  CHECK(is_traced(transformed(leaf(), shift_by({0.001, -0.001})), leaf(), 0.0011));
  CHECK_FALSE(is_traced(transformed(leaf(), shift_by({0.001, 0})), leaf(), 0.0009));
  CHECK_FALSE(is_traced(transformed(leaf(), shift_by({0, 0.001})), leaf(), 0.0009));
  Path more = leaf(), open;
  more.move_to({1, 1});
  open.move_to({10, 90});
  open.line_to({20, 90});
  Path parted = open;
  parted.move_to({30, 90});
  open.line_to({30, 90});
  CHECK_FALSE(is_traced(parted, open, 1));
  CHECK_FALSE(is_traced(more, leaf(), 1));
  CHECK_FALSE(is_traced(leaf(), more, 1));
  CHECK_FALSE(is_traced(open, leaf(), 1));
}

TEST_CASE("polylines are followed along the sheet's contours, vertex by vertex") {
  const Sheet sheet = sheet_by_hand();
  const Expectation expectation = expecting(sheet);
  REQUIRE(expectation.is_sound);
  const std::vector<HandPolyline> whole = polylines_by_hand();
  CHECK(is_followed(expectation, whole));
  struct Case {
    const char* name;
    void (*change)(std::vector<HandPolyline>&);
    bool followed;
  };
  const Case table[] = {
      {"a vertex a whole place aside", [](auto& d) { d[0].points[1].x += 0.0001; }, false},
      {"a vertex rounded", [](auto& d) { d[0].points[1].x += 0.00004; }, true},
      {"a vertex more",
       [](auto& d) {
         d[0].points.insert(d[0].points.begin() + 1, Point{20, 16});
       },
       false},
      {"a vertex less", [](auto& d) { d[2].points.erase(d[2].points.begin() + 4); }, false},
      {"the last vertex left out", [](auto& d) { d[0].points.pop_back(); }, false},
      {"a contour left open", [](auto& d) { d[1].closed = false; }, false},
      {"a mark closed", [](auto& d) { d[4].closed = true; }, false},
      {"a contour left out", [](auto& d) { d.erase(d.begin() + 1); }, false},
      {"the last contour left out", [](auto& d) { d.pop_back(); }, false},
      {"a contour more", [](auto& d) { d.push_back(d[1]); }, false},
      {"contours changed round", [](auto& d) { std::swap(d[0], d[1]); }, false},
      {"another layer", [](auto& d) { d[3].layer = "CUT"; }, false},
      {"the start said again at the end", [](auto& d) { d[0].points.push_back(d[0].points.front()); }, false},
  };
  for (const Case& c : table) {
    INFO(c.name);
    std::vector<HandPolyline> drawing = whole;
    c.change(drawing);
    CHECK(is_followed(expectation, drawing) == c.followed);
  }
}

TEST_CASE("vertices that fall together in the file's last place are one") {
  Sheet sheet = sheet_by_hand();
  Path mark;
  mark.move_to({1, 1});
  mark.line_to({2, 1});
  mark.line_to({2.00001, 1.00001});
  mark.line_to({2, 2});
  mark.line_to({1.00001, 1});
  mark.close();
  sheet.parts = {{Operation::mark, "mark-1", "mark", mark}};
  Expectation expectation{sheet, {}, {{sheet.parts.data(), std::nullopt, {}}}, {}, true};
  CHECK(is_followed(expectation, {{"MARK", {{1, 1}, {2, 1}, {2, 2}}, true}}));
  CHECK_FALSE(is_followed(expectation, {{"MARK", {{1, 1}, {2, 1}, {2, 2}}, false}}));
  CHECK_FALSE(is_followed(expectation, {{"MARK", {{1, 1}, {2, 1}}, true}}));
}

TEST_CASE("a sheet whose own ink lies amiss is sound for no file") {
  Sheet sheet = sheet_by_hand();
  CHECK(expecting(sheet).is_sound);
  sheet.items[0].artwork.clear_area.region.edges[2].offset -= 1;  // nearer from the right than its ink reaches
  CHECK_FALSE(expecting(sheet).is_sound);
}

}  // namespace ordinatio::tracing_test
