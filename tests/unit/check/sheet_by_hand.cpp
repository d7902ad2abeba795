#include "sheet_by_hand.h"

#include <stdexcept>

namespace ordinatio {
namespace {

ConvexRegion box_region(double left, double bottom, double right, double top) {
  return {{{{-1, 0}, -left}, {{0, -1}, -bottom}, {{1, 0}, right}, {{0, 1}, top}}};
}

Artwork blank_artwork() {
  Artwork artwork;
  artwork.blank.outline = {{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, {}};
  artwork.clear_area.region = box_region(6, 6, 54, 34);
  artwork.placement = {12.5, {6, 6.25}};
  artwork.cap_height = 8.75;
  artwork.faces = {{"Invented Serif", std::string(64, 'a')}};
  artwork.hash = std::string(64, 'b');
  return artwork;
}

SheetItem item(const std::string& id, int pocket, const Transform& to_bed, std::vector<Layer> layers) {
  SheetItem placed;
  placed.item.id = id;
  placed.item.design = "slate";
  placed.item.source = "orders.csv:2";
  placed.item.inscription = {"The Mill\xC2\xA0House", {"The Mill House"}, {}};
  placed.item.inscription.notes.push_back({CleaningNote::Weight::note, 1, 9, "non-breaking space became a space"});
  placed.artwork = blank_artwork();
  placed.artwork.layers = std::move(layers);
  placed.pocket = pocket;
  placed.to_bed = to_bed;
  return placed;
}

/// A slab with one rounded corner and a window.
Path slab() {
  Path path;
  path.move_to({6, 6});
  path.line_to({40, 6});
  path.cubic_to({48, 6}, {54, 12}, {54, 20});
  path.line_to({54, 34});
  path.line_to({6, 34});
  path.close();
  path.move_to({12, 12});
  path.line_to({12, 20});
  path.line_to({30, 20});
  path.line_to({30, 12});
  path.close();
  return path;
}

Path sail() {
  Path path;
  path.move_to({10, 10});
  path.line_to({50, 10});
  path.quad_to({50, 30}, {10, 30});
  path.close();
  return path;
}

Path rectangle(double left, double bottom, double right, double top) {
  Path path;
  path.add_rectangle({left, bottom, right, top});
  return path;
}

Path cross_mark() {
  Path path;
  path.move_to({146, 100});
  path.line_to({154, 100});
  path.move_to({150, 96});
  path.line_to({150, 104});
  return path;
}

constexpr const char* svg_body = R"(  <title>sheet-001</title>
  <metadata>{"sheet":"sheet-001","unit":"mm"}</metadata>
  <g id="engrave" fill="#009E73" stroke="none">
    <title>engrave</title>
    <g id="engrave-1042-1">
      <title>item 1042-1, pocket 1</title>
      <path d="M16 104L50 104C58 104 64 98 64 90L64 76L16 76ZM22 98L22 90L40 90L40 98Z"/>
    </g>
    <g id="engrave-1042-2">
      <title>item 1042-2, pocket 2</title>
      <path d="M130 100L130 60Q110 60 110 100Z"/>
    </g>
  </g>
  <g id="score" fill="none" stroke="#E69F00" stroke-width="0.1">
    <title>score</title>
    <g id="score-1042-2">
      <title>item 1042-2, pocket 2</title>
      <path d="M134 104V56H106V104Z"/>
    </g>
  </g>
  <g id="mark" fill="none" stroke="#56B4E9" stroke-width="0.1">
    <title>mark</title>
    <g id="mark-mark-1">
      <title>registration mark 1</title>
      <path d="M146 20L154 20M150 24L150 16"/>
    </g>
  </g>
  <g id="guide" fill="none" stroke="#999999" stroke-width="0.1">
    <title>guide: never run</title>
    <g id="guide-blank-1">
      <title>outline of the blank in pocket 1</title>
      <path d="M10 110L70 110L70 70L10 70Z"/>
    </g>
  </g>
</svg>
)";

/// De Casteljau's construction, so that the check's own polynomial is not asked.
Point on_curve(std::vector<Point> control, double t) {
  while (control.size() > 1) {
    for (std::size_t i = 0; i + 1 < control.size(); ++i) {
      control[i] = (1 - t) * control[i] + t * control[i + 1];
    }
    control.pop_back();
  }
  return control.front();
}

/// `steps` chords: Wang's bound for 0.01 mm, worked out by hand beside each call.
void add_curve(std::vector<Point>& points, const std::vector<Point>& control, int steps) {
  for (int i = 1; i <= steps; ++i) points.push_back(on_curve(control, double(i) / steps));
}

using Tags = std::string;
void tag(Tags& tags, int code, const std::string& value) { tags += std::to_string(code) + "\r\n" + value + "\r\n"; }
void tag(Tags& tags, int code, double value) {
  std::string text;
  append_fixed(text, value, 4);
  tag(tags, code, text);
}

void header(Tags& tags, const std::string& version, const std::vector<HandPolyline>& polylines) {
  Bounds extents;
  for (const HandPolyline& polyline : polylines) {
    for (const Point p : polyline.points) extents.add(p);
  }
  tag(tags, 0, "SECTION"), tag(tags, 2, "HEADER");
  tag(tags, 9, "$ACADVER"), tag(tags, 1, version);
  tag(tags, 9, "$EXTMIN"), tag(tags, 10, extents.left), tag(tags, 20, extents.bottom);
  tag(tags, 9, "$EXTMAX"), tag(tags, 10, extents.right), tag(tags, 20, extents.top);
  tag(tags, 9, "$LUNITS"), tag(tags, 70, "2");
  tag(tags, 9, "$MEASUREMENT"), tag(tags, 70, "1");
  tag(tags, 9, "$INSUNITS"), tag(tags, 70, "4");
  tag(tags, 0, "ENDSEC"), tag(tags, 0, "SECTION"), tag(tags, 2, "TABLES");
  const std::pair<const char*, const char*> layers[] = {
      {"ENGRAVE", "3"}, {"SCORE", "2"}, {"CUT", "6"}, {"MARK", "4"}, {"GUIDE", "8"}};
  for (const auto& [layer, colour] : layers) {
    tag(tags, 0, "LAYER"), tag(tags, 2, layer), tag(tags, 70, "0"), tag(tags, 62, colour);
  }
  tag(tags, 0, "ENDSEC"), tag(tags, 0, "SECTION"), tag(tags, 2, "ENTITIES");
}

}  // namespace

Sheet sheet_by_hand() {
  Sheet sheet;
  sheet.name = "sheet-001";
  sheet.frame.plan.machine = {200, 120};
  sheet.frame.blank_width = 60, sheet.frame.blank_height = 40;
  sheet.frame.pockets = {{1, {10, 10, 70, 50}, false}, {2, {100, 10, 140, 70}, true}};
  sheet.frame.marks = {{150, 100}};
  sheet.designs = {{"slate", std::string(64, 'c')}};
  sheet.date = "2026-11-25";
  const Transform straight{1, 0, 0, 1, 10, 10}, turned{0, 1, -1, 0, 140, 10};
  sheet.items = {
      item("1042-1", 1, straight, {{Operation::engrave, slab()}}),
      item("1042-2", 2, turned, {{Operation::engrave, sail()}, {Operation::score, rectangle(6, 6, 54, 34)}})};
  sheet.parts = {{Operation::engrave, "1042-1", "item 1042-1, pocket 1", transformed(slab(), straight)},
                 {Operation::engrave, "1042-2", "item 1042-2, pocket 2", transformed(sail(), turned)},
                 {Operation::score, "1042-2", "item 1042-2, pocket 2", transformed(rectangle(6, 6, 54, 34), turned)},
                 {Operation::mark, "mark-1", "registration mark 1", cross_mark()},
                 {Operation::guide, "blank-1", "outline of the blank in pocket 1", rectangle(10, 10, 70, 50)}};
  return sheet;
}

std::string svg_by_hand() {
  return std::string(
             "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"200mm\" height=\"120mm\" "
             "viewBox=\"0 0 200 120\">\n") +
         svg_body;
}

std::string svg_by_hand_in_pixels() {
  std::string text =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"755.906\" height=\"453.543\" "
      "viewBox=\"0 0 755.906 453.543\">\n";
  const std::string body = svg_body;
  std::size_t at = 0;
  bool in_path = false;
  while (at < body.size()) {  // each number inside d="…" times 96 / 25.4
    in_path = in_path ? body[at] != '"' : body.compare(at, 4, "d=\"M") == 0 && (text += "d=\"", at += 3, true);
    if (!in_path || body[at] < '0' || body[at] > '9') {
      text += body[at++];
      continue;
    }
    const std::size_t end = body.find_first_not_of("0123456789.", at);
    append_number(text, *parse_number(body.substr(at, end - at)) / mm_per_css_px, 3);
    at = end;
  }
  return text;
}

std::vector<HandPolyline> polylines_by_hand() {
  std::vector<Point> outer{{16, 16}, {50, 16}};
  // max|Δ²P| = |(−6, 2)| = 6.32: √(6 · 6.32 / 0.08) = 21.8
  add_curve(outer, {{50, 16}, {58, 16}, {64, 22}, {64, 30}}, 22);
  outer.insert(outer.end(), {{64, 44}, {16, 44}});
  std::vector<Point> sail_points{{130, 20}, {130, 60}};
  // |Δ²P| = |(20, −40)| = 44.7: √(2 · 44.7 / 0.08) = 33.4
  add_curve(sail_points, {{130, 60}, {110, 60}, {110, 20}}, 34);
  return {{"ENGRAVE", outer},
          {"ENGRAVE", {{22, 22}, {22, 30}, {40, 30}, {40, 22}}},
          {"ENGRAVE", sail_points},
          {"SCORE", {{134, 16}, {134, 64}, {106, 64}, {106, 16}}},
          {"MARK", {{146, 100}, {154, 100}}, false},
          {"MARK", {{150, 96}, {150, 104}}, false},
          {"GUIDE", {{10, 10}, {70, 10}, {70, 50}, {10, 50}}}};
}

std::string dxf_r12_of(const std::vector<HandPolyline>& polylines) {
  Tags tags;
  header(tags, "AC1009", polylines);
  for (const HandPolyline& polyline : polylines) {
    tag(tags, 0, "POLYLINE"), tag(tags, 8, polyline.layer), tag(tags, 66, "1");
    tag(tags, 70, polyline.closed ? "1" : "0");
    for (const Point p : polyline.points) {
      tag(tags, 0, "VERTEX"), tag(tags, 8, polyline.layer), tag(tags, 10, p.x), tag(tags, 20, p.y);
    }
    tag(tags, 0, "SEQEND"), tag(tags, 8, polyline.layer);
  }
  tag(tags, 0, "ENDSEC"), tag(tags, 0, "EOF");
  return tags;
}

std::string dxf_r2000_of(const std::vector<HandPolyline>& polylines) {
  Tags tags;
  header(tags, "AC1015", polylines);
  for (const HandPolyline& polyline : polylines) {
    tag(tags, 0, "LWPOLYLINE"), tag(tags, 5, "100"), tag(tags, 100, "AcDbEntity"), tag(tags, 8, polyline.layer);
    tag(tags, 100, "AcDbPolyline"), tag(tags, 90, std::to_string(polyline.points.size()));
    tag(tags, 70, polyline.closed ? "1" : "0");
    for (const Point p : polyline.points) tag(tags, 10, p.x), tag(tags, 20, p.y);
  }
  tag(tags, 0, "ENDSEC"), tag(tags, 0, "SECTION"), tag(tags, 2, "OBJECTS"), tag(tags, 0, "ENDSEC");
  tag(tags, 0, "EOF");
  return tags;
}

std::string damaged(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos) {
    throw std::logic_error("\"" + from + "\" does not stand in the text exactly once");
  }
  return text.replace(at, from.size(), to);
}

}  // namespace ordinatio
