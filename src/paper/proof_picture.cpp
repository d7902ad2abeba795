#include <algorithm>
#include <cmath>

#include "bed/item_number.h"
#include "paper/page.h"
#include "paper/paper.h"

namespace ordinatio::inline paper {
namespace {

struct Hues {
  Colour piece, edge, ink;
};

/// Flat, and light against dark as the beam leaves them: slate and glass turn pale, wood and brass dark.
Hues hues_of(Tint tint) {
  switch (tint) {
    case Tint::slate:
      return {{0x46, 0x4D, 0x55}, {0x2C, 0x31, 0x37}, {0xDD, 0xE0, 0xDF}};
    case Tint::glass:
      return {{0xBF, 0xD6, 0xD3}, {0x7F, 0xA3, 0xA0}, {0xFB, 0xFD, 0xFC}};
    case Tint::wood:
      return {{0xCF, 0xA9, 0x77}, {0x96, 0x70, 0x42}, {0x3E, 0x27, 0x14}};
    case Tint::brass:
      return {{0xCC, 0xB0, 0x67}, {0x93, 0x79, 0x36}, {0x2A, 0x24, 0x14}};
    case Tint::other:
      break;
  }
  return {{0xE2, 0xE0, 0xDA}, {0xA3, 0x9F, 0x95}, {0x24, 0x24, 0x24}};
}

// Shares of the plaque's mean side.
constexpr double ground_share = 0.09, words_share = 0.036, edge_share = 0.003;
constexpr Colour ground{0xF7, 0xF5, 0xF0};

Path box_path(const Bounds& box) {
  return path_of(
      Polygons{{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}}});
}

void draw_plaque(Canvas& canvas, const Artwork& artwork, Point shift, double edge) {
  const Hues hues = hues_of(tint_of(artwork.blank.material));
  const Transform place = shift_by(shift);
  const Path piece = transformed(path_of(artwork.blank), place);
  canvas.fill(piece, hues.piece);
  canvas.stroke(piece, {edge, hues.edge, {}});
  for (const KeptClear& thing : artwork.kept_clear) {
    canvas.stroke(transformed(path_of(outline_of(thing)), place), {edge, hues.edge, {}});
  }
  for (const Layer& layer : artwork.layers) {
    if (layer.operation == Operation::guide) continue;
    const Path path = transformed(layer.path, place);
    is_filled(layer.operation) ? canvas.fill(path, hues.ink) : canvas.stroke(path, {2 * edge, hues.ink, {}});
  }
}

}  // namespace

Result<std::string> write_proof_png(const ProofPage& proof, const std::string& shop_name, const FontLibrary& fonts,
                                    int width) {
  const std::string number = number_for_people(proof.item);
  if (!proof.artwork || proof.held)
    return Fault{"there is no picture of " + number, "", "it is held", "Mend it first; its page of proofs says how"};
  if (width < narrowest_proof || width > widest_proof)
    return Fault{"a picture cannot be " + std::to_string(width) + " pixels wide", "--width", "",
                 "Give a number from " + std::to_string(narrowest_proof) + " to " + std::to_string(widest_proof)};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  const Bounds piece = bounds_of(path_of(proof.artwork->blank));
  const double side = std::sqrt(piece.width() * piece.height()), around = ground_share * side;
  const double size = words_share * side, strip = 2.4 * size;
  const Bounds page{0, 0, piece.width() + 2 * around, piece.height() + around + strip + around};
  Canvas canvas = Canvas::picture(page.width(), page.height(), 0, width / page.width());
  canvas.fill(box_path(page), ground);
  draw_plaque(canvas, *proof.artwork, {around - piece.left, page.top - around - piece.top}, edge_share * side);
  const auto write = [&](std::string_view text, double room, bool flush_right) {
    SetLine line = lettering->set(text, size);
    line.size *= std::min(1.0, room / line.width());
    lettering->draw(canvas, line, {flush_right ? page.right - around - line.width() : around, around}, grey);
    return line.width();
  };
  const double used = write("Proof · " + number, 0.6 * piece.width(), false);
  write(shop_name, piece.width() - used - size, true);
  return canvas.finish();
}

}  // namespace ordinatio::inline paper
