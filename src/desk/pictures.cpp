#include "desk/pictures.h"

#include <algorithm>
#include <array>

#include "write/write.h"
#include "write/xml.h"

namespace ordinatio::inline desk {
namespace {

constexpr double air = 2;  // mm around a picture, for the width of the lines that end it

std::string open_svg(const std::string& kind, const std::string& material, double width, double height) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"" + kind + "\" data-material=\"" +
                    tint_of(material) + "\" viewBox=\"";
  for (const double number : {-air, -air, width + 2 * air, height + 2 * air}) {
    append_number(svg, number, 2);
    svg += ' ';
  }
  svg.back() = '"';
  return svg + ">";
}

/// A path of a class; things have a name, too.
void draw(std::string& svg, const char* kind, const Path& path, double height, const std::string& name = "") {
  if (path.verbs().empty()) return;
  svg += std::string("<path class=\"") + kind + "\" d=\"";
  append_path_data(svg, path, height);
  svg += name.empty() ? "\"/>" : "\"><title>" + escaped(name) + "</title></path>";
}

Path closed(const Polygon& corners) {
  Path path;
  for (std::size_t i = 0; i < corners.size(); ++i) i == 0 ? path.move_to(corners[i]) : path.line_to(corners[i]);
  if (!corners.empty()) path.close();
  return path;
}

/// What is there before anything is engraved.
void draw_piece(std::string& svg, const Blank& blank, const std::vector<KeptClear>& things, const Transform& place,
                double height) {
  const auto placed = [&](const Path& path) { return transformed(path, place); };
  draw(svg, "piece", placed(path_of(blank)), height);
  for (const Polygon& chip : blank.chips) draw(svg, "chip", placed(closed(chip)), height);
  for (const KeptClear& thing : things) {
    for (const Polygon& outline : outline_of(thing)) draw(svg, "kept", placed(closed(outline)), height, thing.name);
  }
}

void draw_ink(std::string& svg, const std::vector<Layer>& layers, const Transform& place, double height) {
  for (const Layer& layer : layers) {
    svg += "<g class=\"" + std::string(name_of(layer.operation)) + "\">";
    draw(svg, "ink", transformed(layer.path, place), height);
    svg += "</g>";
  }
}

Bounds box_of(const Blank& blank) { return bounds_of(path_of(blank.outline)); }

}  // namespace

std::string tint_of(const std::string& material) {
  std::string small = material;
  for (char& letter : small) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  static constexpr std::array<std::pair<std::string_view, const char*>, 8> words{{{"slate", "slate"},
                                                                                  {"stone", "slate"},
                                                                                  {"glass", "glass"},
                                                                                  {"wood", "wood"},
                                                                                  {"oak", "wood"},
                                                                                  {"brass", "brass"},
                                                                                  {"copper", "brass"},
                                                                                  {"bronze", "brass"}}};
  const auto known =
      std::ranges::find_if(words, [&](const auto& word) { return small.find(word.first) != std::string::npos; });
  return known == words.end() ? "other" : known->second;
}

std::string plaque_picture(const Artwork& artwork) {
  const Bounds box = box_of(artwork.blank);
  std::string svg = open_svg("plaque", artwork.blank.material, box.width(), box.height());
  const Transform in_place = shift_by({-box.left, -box.bottom});
  draw_piece(svg, artwork.blank, artwork.kept_clear, in_place, box.height());
  draw(svg, "clear", transformed(closed(polygon_of(artwork.clear_area.region)), in_place), box.height());
  draw_ink(svg, artwork.layers, in_place, box.height());
  return svg + "</svg>";
}

std::string piece_picture(const Blank& blank) {
  const Bounds box = box_of(blank);
  std::string svg = open_svg("plaque", blank.material, box.width(), box.height());
  draw_piece(svg, blank, blank.kept_clear, shift_by({-box.left, -box.bottom}), box.height());
  return svg + "</svg>";
}

std::string bed_picture(const Sheet& sheet) {
  const Machine& machine = sheet.frame.plan.machine;
  std::string svg = open_svg("bed", "", machine.width, machine.height);
  for (const SheetItem& item : sheet.items) {
    svg += "<g class=\"pocket\" data-pocket=\"" + std::to_string(item.pocket) + "\" data-material=\"" +
           tint_of(item.artwork.blank.material) + "\">";
    draw_piece(svg, item.artwork.blank, item.artwork.kept_clear, item.to_bed, machine.height);
    draw_ink(svg, item.artwork.layers, item.to_bed, machine.height);
    svg += "</g>";
  }
  for (const SheetPart& part : sheet.parts) {
    if (part.operation == Operation::mark && part.id.starts_with("mark-"))
      draw(svg, "registration", part.path, machine.height, part.title);
  }
  return svg + "</svg>";
}

}  // namespace ordinatio::inline desk
