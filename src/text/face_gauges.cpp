#include "text/gauges.h"

#include <algorithm>

namespace ordinatio {
namespace {

/// Latin letters of Basic Latin, Latin-1 and Latin Extended-A, and the digits.
bool is_measured(char32_t c) {
  if (c < 0x80) return (c >= U'0' && c <= U'9') || (c >= U'A' && c <= U'Z') || (c >= U'a' && c <= U'z');
  return c >= 0xC0 && c <= 0x17F && c != U'×' && c != U'÷';
}

void take_less(FaceGauge& least, const std::vector<Gauge>& gauges, char32_t letter) {
  if (!gauges.empty() && gauges.front().width < least.gauge.width) least = {gauges.front(), letter};
}

}  // namespace

FaceGauges measure_face(Face& face) {
  FaceGauges least;
  for (char32_t letter = U'0'; letter <= 0x17F; ++letter) {
    if (!is_measured(letter) || !face.draws(letter)) continue;
    const GlyphOutline& outline = face.outline(face.glyph_of(letter));
    if (outline.ink.empty()) continue;
    const Thickness thickness = thickness_of(solid_ink(outline), em_rules);
    take_less(least.stroke, thickness.strokes, letter);
    take_less(least.gap, thickness.gaps, letter);
  }
  return least;
}

double FaceGauges::least_cap_height(double spot, double cap_height) const {
  return spot * cap_height / std::min(stroke.gauge.width, gap.gauge.width);
}

}  // namespace ordinatio
