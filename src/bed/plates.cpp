#include "bed/plates.h"

#include <algorithm>
#include <cmath>

#include "codes/codes.h"

namespace ordinatio::inline bed {
namespace {

constexpr double number_room = 0.2;    // of the size: the strip below the code
constexpr double number_height = 0.6;  // of that strip: figures, the rest is air
constexpr double number_width = 0.9;   // of the plate, at the most
constexpr const char* number_face = "sans";
constexpr double size_step = 10;  // a millimetre: what is told as the least size is rounded up to a tenth

/// The whole square of modules, row by row from the top: what the beam draws.
class Cells {
 public:
  Cells(const QrCode& code, bool pale) : code_(code), pale_(pale) {}
  [[nodiscard]] int side() const { return code_.whole_side(); }
  [[nodiscard]] bool is_drawn(int row, int column) const {
    return code_.is_dark(row - quiet_modules, column - quiet_modules) != pale_;
  }

 private:
  const QrCode& code_;
  bool pale_;
};

/// Lines along the rows, so close that the beam leaves nothing between them, and half a beam inside every edge.
void add_lines(Path& path, const Cells& cells, double module, double spot) {
  const int lines = std::max(2, static_cast<int>(std::ceil(module / spot - 1e-9)));
  const double inside = spot / 2, step = (module - spot) / (lines - 1);
  for (int row = 0; row < cells.side(); ++row) {
    const double bottom = (cells.side() - 1 - row) * module;
    for (int column = 0; column < cells.side(); ++column) {
      const int first = column;
      while (column < cells.side() && cells.is_drawn(row, column)) ++column;
      for (int line = 0; line < lines && column > first; ++line) {
        const double y = bottom + inside + line * step;
        path.move_to({first * module + inside, y});
        path.line_to({column * module - inside, y});
      }
    }
  }
}

Path code_path(const QrCode& code, const PlateWish& wish, double module, double spot) {
  const Polygons outlines = outlines_of(code, module, wish.pale);
  if (is_filled(wish.operation)) return path_of(outlines);
  Path path = path_of(offset(outlines, -spot / 2, Join::mitre, curve_tolerance));
  add_lines(path, Cells(code, wish.pale), module, spot);
  return path;
}

/// The number in the middle of the strip below the code, as small as its width asks for; none where no face has all of its
/// letters: the code says it all the same.
void add_number(Artwork& artwork, Path& path, const std::string& number, const PlateWish& wish,
                Typesetter& typesetter) {
  const TextStyle style{{number_face}, "en", ""};
  const Result<ShapedLine> line = typesetter.shape(number, style);
  const Result<ShapedLine> figures = typesetter.shape("0123456789", style);
  if (!line.ok() || !figures.ok() || line->ink.empty()) return;
  const double strip = number_room * wish.size;
  const double size = std::min(number_height * strip / std::max(figures->ink.height(), line->ink.height()),
                               number_width * wish.size / line->ink.width());
  const Point middle{(line->ink.left + line->ink.right) / 2, (line->ink.bottom + line->ink.top) / 2};
  typesetter.append_ink(path, *line, size, {wish.size / 2 - size * middle.x, strip / 2 - size * middle.y},
                        curve_tolerance);
  artwork.cap_height = size * figures->ink.height();
  artwork.lines = {number};
}

Fault too_fine(const PlateWish& wish, double module, double spot, int side) {
  const double least = std::ceil(spots_a_module * spot * side * size_step - 1e-9) / size_step;
  return {
      "a plate of " + mm_text(wish.size) + " is too small for its code", "--size",
      "its modules would be " + mm_text(module) + ", and three spots of the beam are " + mm_text(spots_a_module * spot),
      "Take at least " + mm_text(least)};
}

}  // namespace

Point plate_measures(const PlateWish& wish) { return {wish.size, wish.size * (1 + number_room)}; }

Result<Artwork> plate_of(const std::string& number, const PlateWish& wish, const Machine& machine,
                         Typesetter& typesetter) {
  const Result<QrCode> code = qr_code(number);
  if (!code.ok()) return code.fault();
  const double module = wish.size / code->whole_side();
  if (!(wish.size <= std::max(machine.width, machine.height)))
    return Fault{"a plate is larger than the bed", "--size", "", "Take a smaller one"};
  if (module < spots_a_module * machine.spot * (1 - 1e-9))
    return too_fine(wish, module, machine.spot, code->whole_side());
  Artwork artwork;
  const Point measures = plate_measures(wish);
  artwork.blank.outline = rectangle_outline(measures.x, measures.y, Corner::square, 0);
  artwork.clear_area.region = region_of(artwork.blank.outline);
  Path path = transformed(code_path(*code, wish, module, machine.spot), shift_by({0, measures.y - wish.size}));
  add_number(artwork, path, number, wish, typesetter);
  artwork.layers = {{wish.operation, std::move(path)}};
  artwork.hash = hash_of(artwork.layers);
  return artwork;
}

}  // namespace ordinatio::inline bed
