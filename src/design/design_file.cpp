#include "design/design_file.h"

#include <algorithm>

#include "design/design_parts.h"
#include "design/hatch_table.h"
#include "design/text_table.h"
#include "design/toml_table.h"

namespace ordinatio::inline design {
namespace {

constexpr Word<Corner> corner_words[] = {
    {"square", Corner::square}, {"rounded", Corner::rounded}, {"cut", Corner::cut}};

constexpr Word<bool> side_words[] = {{"front", false}, {"back", true}};

// ---- the blank ----

void read_rectangle(TomlTable& blank, Corner corners, double corner, Design& design) {
  blank.require("width", "width = 152.4");
  blank.require("height", "height = 101.6");
  if (design.width == 0 || design.height == 0) return;
  design.blank.outline = rectangle_outline(design.width, design.height, corners, corner);
  if (corners == Corner::cut && 2 * corner >= std::min(design.width, design.height)) {
    blank.fault("corner", "cuts away more than the blank's edges", "", "Write less than half of the shorter side");
  }
}

void read_outline(TomlTable& blank, Corner corners, double corner, Polygon points, Design& design) {
  for (const std::string_view key : {"width", "height"}) {
    if (blank.has(key)) blank.fault(key, "stands beside an outline", "the outline tells both", "Take it out");
  }
  if (corners == Corner::cut) blank.fault("corners", "cannot be cut on an outline", "", "Give the cuts as points");
  if (area_of(points) < 0) std::ranges::reverse(points);
  Bounds bounds;
  for (const Point p : points) bounds.add(p);
  if (!is_convex(points)) {
    blank.fault("outline", "is not convex", "it turns inward, crosses itself, or has three points in one line",
                "Go round the blank once, corner by corner");
  } else if (bounds.left != 0 || bounds.bottom != 0) {
    blank.fault("outline", "does not start at 0", "its least x and its least y must be 0",
                "Measure from the blank's lower-left corner");
  }
  design.width = bounds.width(), design.height = bounds.height();
  design.blank.outline = rounded_outline(std::move(points), corners == Corner::rounded ? corner : 0);
}

void read_blank(TomlTable& blank, Design& design) {
  Corner corners = Corner::square;
  double corner = 3;
  Polygon points;
  blank.read("material", design.material);
  design.blank.material = design.material;
  double thickness = 0;
  if (blank.read("thickness", thickness, any_size)) design.blank.thickness = thickness;
  blank.read("width", design.width, any_size);
  blank.read("height", design.height, any_size);
  blank.read("corners", corners, corner_words);
  blank.read("corner", corner, any_size);
  const bool drawn = blank.read("outline", points, any_place);
  if (corners == Corner::square && blank.has("corner")) {
    blank.fault("corner", "has no use", "the corners are square", "Write corners = \"rounded\" or \"cut\"");
  }
  if (drawn) {
    read_outline(blank, corners, corner, std::move(points), design);
  } else if (!blank.has("outline")) {
    read_rectangle(blank, corners, corner, design);
  }
  if (is_convex(design.blank.outline.vertices) && !corners_fit(design.blank.outline)) {
    blank.fault("corner", "is larger than the blank's edges allow", "", "Write at most half of the shorter side");
  }
}

// ---- the parts ----

BorderPart read_border(TomlTable& border, double margin) {
  BorderPart part;
  part.distance = margin;
  border.read("distance", part.distance, any_distance);
  border.read("width", part.width, any_size);
  read_operation(border, part.operation);
  if (!is_filled(part.operation) && border.has("width")) {
    border.fault("width", "has no use", "only an engraved border is wide; others are a line", "Take it out");
  }
  return part;
}

LogoPart read_logo_part(TomlTable& logo) {
  LogoPart part;
  std::optional<Bounds> box;
  logo.require("file", "file = \"mark.svg\"");
  logo.require("box", "box = [10, 10, 30, 20]");
  logo.read("box", box);
  read_operation(logo, part.operation);
  if (logo.read("file", part.file) && part.file.empty())
    logo.fault("file", "is empty", "", "Name an SVG file beside the design");
  part.box = box.value_or(Bounds{});
  return part;
}

constexpr std::size_t sample_limit = 12;  // more would stand too small beside one another on one page

std::string read_sample(TomlTable& sample) {
  std::vector<std::string> lines;
  sample.require("lines", "lines = [\"Rose Cottage\"]");
  if (sample.read("lines", lines) && std::ranges::all_of(lines, &std::string::empty)) {
    sample.fault("lines", "holds no words", "", "Write, for example: lines = [\"Rose Cottage\"]");
  }
  std::string text;
  for (const std::string& line : lines) text.append(text.empty() ? "" : "\n").append(line);
  return text;
}

}  // namespace

Result<Design> parse_design(std::string_view text, const std::string& file_name, const std::string& name) {
  auto file = TomlFile::parse(text, file_name);
  if (!file.ok()) return file.fault();
  Design design;
  design.name = name;
  TomlTable root = file->root();
  root.read("about", design.about);
  root.read("side", design.from_behind, side_words);
  root.read("approval", design.approval);
  if (root.read("jig", design.jig) && design.jig.empty()) {
    root.fault("jig", "is empty", "", "Name a [jig.NAME] of shop.toml, or take it out to have the size choose");
  }
  DesignTables tables{root,
                      root.table("blank"),
                      root.table("clear"),
                      root.tables("text"),
                      root.tables("border"),
                      root.tables("logo"),
                      root.tables("keep_clear"),
                      root.tables("sample")};
  read_blank(tables.blank, design);
  tables.clear.read("margin", design.margin, any_distance);
  tables.clear.read("gap", design.gap, any_distance);
  for (TomlTable& table : tables.texts) design.texts.push_back(read_text(table));
  for (TomlTable& table : tables.borders) design.borders.push_back(read_border(table, design.margin));
  for (TomlTable& table : tables.logos) design.logos.push_back(read_logo_part(table));
  read_hatch(root.table("hatch"), design.hatch);
  for (TomlTable& table : tables.kept_clear) design.kept_clear.push_back(read_kept_clear(table));
  if (tables.samples.size() > sample_limit) {
    root.fault("sample", "stands there too often",
               "a page of the specimen shows no more than " + std::to_string(sample_limit), "Take some out");
  }
  for (TomlTable& table : tables.samples) design.samples.push_back(read_sample(table));
  if (!file->faulty()) check_design(design, tables);
  if (auto fault = file->fault()) return *fault;
  return design;
}

}  // namespace ordinatio::inline design
