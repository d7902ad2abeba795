#include "paper/measures.h"

namespace ordinatio::inline paper {
namespace {

constexpr double beyond = 1.5,
                 figure_gap = 1.2;  // mm: lines past the measure's line, and free of the box and the figures
constexpr double cap_share = 0.35;  // half of the figures' height, in ems

}  // namespace

void draw_measures(Canvas& canvas, Lettering& lettering, const Bounds& box, std::string_view width_text,
                   std::string_view height_text, const MeasuresLook& look) {
  const SetLine width = lettering.set(width_text, look.size), height = lettering.set(height_text, look.size);
  const double y = box.bottom - look.away, x = box.right + look.away, middle = cap_share * look.size;
  const Point centre = box.centre();
  const double half_width = width.width() / 2;
  for (const double end : {box.left, box.right}) {
    const double inner = centre.x + (end < centre.x ? -1 : 1) * (half_width + figure_gap);
    canvas.stroke(segment({end, box.bottom - figure_gap}, {end, y - beyond}), thin_line());
    if ((inner - end) * (centre.x - end) > 0) canvas.stroke(segment({end, y}, {inner, y}), thin_line());
  }
  for (const double end : {box.bottom, box.top}) {
    const double inner = centre.y + (end < centre.y ? -1 : 1) * (middle + figure_gap);
    canvas.stroke(segment({box.right + figure_gap, end}, {x + beyond, end}), thin_line());
    if ((inner - end) * (centre.y - end) > 0) canvas.stroke(segment({x, end}, {x, inner}), thin_line());
  }
  lettering.draw(canvas, width, {centre.x - half_width, y - middle}, black);
  lettering.draw(canvas, height, {x - height.width() / 2, centre.y - middle}, black);
}

}  // namespace ordinatio::inline paper
