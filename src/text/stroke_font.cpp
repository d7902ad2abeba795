#include "text/stroke_font.h"

#include <cmath>

namespace ordinatio::inline text {
namespace {

constexpr double to_units = stroke_units_per_em / stroke_em;

const StrokeAlphabet& alphabet_of(void* data) { return *static_cast<const StrokeAlphabet*>(data); }

hb_bool_t stroke_glyph(hb_font_t*, void* data, hb_codepoint_t character, hb_codepoint_t* glyph, void*) {
  if (alphabet_of(data).glyph(character) == nullptr) return 0;
  *glyph = character;
  return 1;
}

hb_position_t stroke_advance(hb_font_t*, void* data, hb_codepoint_t glyph, void*) {
  const StrokeGlyph* drawn = alphabet_of(data).glyph(glyph);
  return drawn == nullptr ? 0 : static_cast<hb_position_t>(std::lround(to_units * drawn->advance));
}

hb_position_t stroke_kerning(hb_font_t*, void* data, hb_codepoint_t left, hb_codepoint_t right, void*) {
  return -static_cast<hb_position_t>(std::lround(to_units * alphabet_of(data).kerning(left, right)));
}

hb_bool_t stroke_extents(hb_font_t*, void* data, hb_codepoint_t glyph, hb_glyph_extents_t* extents, void*) {
  const StrokeGlyph* drawn = alphabet_of(data).glyph(glyph);
  if (drawn == nullptr) return 0;
  const Bounds ink = bounds_of(drawn->path);
  *extents = {};
  if (ink.empty()) return 1;
  const auto units = [](double grid) { return static_cast<hb_position_t>(std::lround(to_units * grid)); };
  *extents = {units(ink.left), units(ink.top), units(ink.width()), -units(ink.height())};
  return 1;
}

hb_font_funcs_t* make_stroke_functions() {
  hb_font_funcs_t* functions = hb_font_funcs_create();
  hb_font_funcs_set_nominal_glyph_func(functions, stroke_glyph, nullptr, nullptr);
  hb_font_funcs_set_glyph_h_advance_func(functions, stroke_advance, nullptr, nullptr);
  hb_font_funcs_set_glyph_h_kerning_func(functions, stroke_kerning, nullptr, nullptr);
  hb_font_funcs_set_glyph_extents_func(functions, stroke_extents, nullptr, nullptr);
  hb_font_funcs_make_immutable(functions);
  return functions;
}

}  // namespace

HbFont stroke_font(const StrokeAlphabet& alphabet) {
  static hb_font_funcs_t* const functions = make_stroke_functions();
  const std::unique_ptr<hb_face_t, Destroyer<hb_face_destroy>> face(hb_face_create(hb_blob_get_empty(), 0));
  hb_face_set_upem(face.get(), stroke_units_per_em);
  HbFont font(hb_font_create(face.get()));
  hb_font_set_scale(font.get(), stroke_units_per_em, stroke_units_per_em);
  hb_font_set_funcs(font.get(), functions, const_cast<StrokeAlphabet*>(&alphabet), nullptr);  // read alone
  return font;
}

GlyphOutline stroke_outline(const StrokeAlphabet& alphabet, hb_codepoint_t glyph) {
  GlyphOutline outline;
  const StrokeGlyph* drawn = alphabet.glyph(glyph);
  if (drawn == nullptr) return outline;
  outline.path = transformed(drawn->path, scale_by(1 / stroke_em));
  outline.ink = bounds_of(outline.path);
  outline.hull = hull_of(outline.path, hull_tolerance);
  Point moment;
  double sum = 0;
  for (const Polyline& line : flatten(outline.path, hull_tolerance)) {
    const std::size_t count = line.points.size();
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < count; ++i) {
      const Point a = line.points[i], b = line.points[(i + 1) % count];
      sum += length(b - a);
      moment = moment + length(b - a) / 2 * (a + b);
    }
  }
  outline.area = sum * stroke_line / stroke_em;
  outline.centroid = sum > 0 ? (1 / sum) * moment : outline.ink.centre();
  return outline;
}

}  // namespace ordinatio::inline text
