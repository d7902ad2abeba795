#include "desk/pictures.h"

#include <algorithm>
#include <array>

#include "paper/paper.h"
#include "write/write.h"
#include "write/xml.h"

namespace ordinatio::inline desk {
namespace {

constexpr double air = 2;  // mm around a picture, for the width of the lines that end it
constexpr std::size_t shelf_columns = 12;
constexpr double shelf_cell = 18, shelf_gap = 3;  // mm across, and between, in the picture of the stock
constexpr double word_share = 0.16;               // of a piece's shorter side: its name, mm per em

std::string open_svg(const std::string& kind, const std::string& material, double width, double height) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"" + kind + "\" data-material=\"" +
                    std::string(name_of(tint_of(material))) + "\" viewBox=\"";
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

Path box_path(const Bounds& box) {
  return closed({{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}});
}

void write_word(std::string& svg, const std::string& word, Point middle, double size, double height) {
  svg += "<text class=\"word\" x=\"";
  append_number(svg, middle.x, 2);
  svg += "\" y=\"";
  append_number(svg, height - middle.y + 0.35 * size, 2);  // figures stand some 0.7 em tall
  svg += "\" font-size=\"";
  append_number(svg, size, 2);
  svg += "\">" + escaped(word) + "</text>";
}

void draw_cut(std::string& svg, const CuttingPlan& plan, std::size_t index, double size) {
  const Cut& cut = plan.cuts[index];
  const Bounds& part = plan.parts[cut.part].box;
  const double kerf = std::max(plan.task.kerf, size / 10);
  const Bounds blade = cut.upright ? Bounds{cut.blade, part.bottom, cut.blade + kerf, part.top}
                                   : Bounds{part.left, cut.blade, part.right, cut.blade + kerf};
  draw(svg, "blade", box_path(blade), plan.pane.height, std::to_string(index + 1));
}

}  // namespace

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
  for (const Pocket& pocket : sheet.frame.pockets) {
    if (std::ranges::find(sheet.items, pocket.number, &SheetItem::pocket) != sheet.items.end()) continue;
    svg += "<g class=\"pocket\" data-pocket=\"" + std::to_string(pocket.number) + "\">";
    const Bounds& box = pocket.box;
    draw(svg, "hole",
         closed({{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}}),
         machine.height);
    svg += "</g>";
  }
  for (const SheetItem& item : sheet.items) {
    svg += "<g class=\"pocket\" data-pocket=\"" + std::to_string(item.pocket) + "\" data-material=\"" +
           std::string(name_of(tint_of(item.artwork.blank.material))) + "\">";
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

std::string board_picture(const Sheet& board) {
  const Machine& machine = board.frame.plan.machine;
  std::string svg = open_svg("bed board", "", machine.width, machine.height);
  for (const SheetPart& part : board.parts) {
    svg += "<g class=\"" + std::string(name_of(part.operation)) + "\">";
    draw(svg, part.operation == Operation::mark ? "registration" : "ink", part.path, machine.height, part.title);
    svg += "</g>";
  }
  return svg + "</svg>";
}

std::string stock_picture(const std::vector<StockPiece>& pieces) {
  static constexpr std::array<std::pair<std::string_view, const char*>, 4> kinds{
      {{"free", "piece"}, {"reserved", "kept"}, {"used", "waste"}, {"spoiled", "chip"}}};
  double width = 0, height = 0;
  for (const StockPiece& piece : pieces) {
    width = std::max(width, box_of(*piece.blank).width());
    height = std::max(height, box_of(*piece.blank).height());
  }
  if (!(width > 0 && height > 0)) return "";
  const double scale = shelf_cell / width, row = scale * height + shelf_gap;
  const std::size_t rows = (pieces.size() + shelf_columns - 1) / shelf_columns;
  const double total = static_cast<double>(rows) * row;
  std::string svg = open_svg("plaque", pieces.front().blank->material, shelf_columns * (shelf_cell + shelf_gap), total);
  std::size_t place = 0;
  for (const auto& [state, kind] : kinds) {
    for (const StockPiece& piece : pieces) {
      if (piece.state != state) continue;
      const Bounds box = box_of(*piece.blank);
      const std::size_t column = place % shelf_columns, line = place / shelf_columns + 1;
      const Point at{static_cast<double>(column) * (shelf_cell + shelf_gap), total - static_cast<double>(line) * row};
      draw(svg, kind,
           transformed(path_of(*piece.blank),
                       then(shift_by({-box.left, -box.bottom}), then(scale_by(scale), shift_by(at)))),
           total);
      ++place;
    }
  }
  return svg + "</svg>";
}

std::string pane_picture(const CuttingPlan& plan) {
  const double width = plan.pane.width, height = plan.pane.height;
  const double size = word_share * std::min(plan.task.piece_width, plan.task.piece_height);
  std::string svg = open_svg("pane", "", width, height);
  draw(svg, "waste", box_path({0, 0, width, height}), height);
  for (const CutPiece& piece : plan.pieces) draw(svg, "piece", box_path(piece.place), height);
  for (std::size_t i = 0; i < plan.cuts.size(); ++i) draw_cut(svg, plan, i, size);
  for (const PaneThing& thing : plan.pane.things) draw(svg, "kept", box_path(thing.box), height, thing.name);
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const Bounds& place = plan.pieces[i].place;
    write_word(svg, piece_id(plan, i), {(place.left + place.right) / 2, (place.bottom + place.top) / 2}, size, height);
  }
  return svg + "</svg>";
}

std::string ink_picture(const Path& ink) {
  const Bounds box = bounds_of(ink);
  std::string svg = open_svg("sample", "", box.width(), box.height());
  draw_ink(svg, {{Operation::engrave, ink}}, shift_by({-box.left, -box.bottom}), box.height());
  return svg + "</svg>";
}

}  // namespace ordinatio::inline desk
