#include "paper/artwork_picture.h"

#include "paper/kept_clear.h"
#include "paper/page.h"

namespace ordinatio::inline paper {

void draw_artwork(Canvas& canvas, Lettering& lettering, const Artwork& artwork, const Transform& to_page) {
  canvas.stroke(transformed(path_of(artwork.blank), to_page), thin_line());
  draw_kept_clear(canvas, lettering, artwork.kept_clear, to_page, grey);
  for (const Layer& layer : artwork.layers) {
    if (layer.operation == Operation::guide) continue;
    const Path path = transformed(layer.path, to_page);
    if (is_filled(layer.operation)) {
      canvas.fill(path, black);
    } else {
      canvas.stroke(path, {0.25, layer.operation == Operation::cut ? grey : black, {}});
    }
  }
}

double ink_of(const Artwork& artwork) {
  double area = 0;
  for (const Layer& layer : artwork.layers) {
    if (is_filled(layer.operation)) area += area_of(layer.path);
  }
  return area;
}

}  // namespace ordinatio::inline paper
