// Advances and ink of shaped lines against Pango 1.50 (Debian: libpango1.0-dev; pangoft2 over FreeType and fontconfig).
#include <pango/pangofc-fontmap.h>
#include <pango/pangoft2.h>

#include <catch2/catch.hpp>

#include "text/text.h"

using namespace ordinatio;

namespace {

// At 2000 px an em is a whole number of Pango's units for both faces' grids, so advances are the same to the last digit;
// each glyph's ink is rounded to a unit of 1/1024 px.
constexpr double pixels = 2000;

struct Extents {
  double advance, left, bottom, right, top;  // ems
};

Extents extents_by_pango(const char* family, const char* language, const std::string& text) {
  PangoFontMap* map = pango_ft2_font_map_new();
  pango_ft2_font_map_set_resolution(PANGO_FT2_FONT_MAP(map), 72, 72);
  PangoContext* context = pango_font_map_create_context(map);
  pango_context_set_round_glyph_positions(context, FALSE);
  pango_context_set_language(context, pango_language_from_string(language));
  pango_fc_font_map_set_default_substitute(
      PANGO_FC_FONT_MAP(map),
      [](FcPattern* pattern, gpointer) {
        FcPatternDel(pattern, FC_HINTING);
        FcPatternAddBool(pattern, FC_HINTING, FcFalse);
      },
      nullptr, nullptr);
  PangoFontDescription* font = pango_font_description_from_string(family);
  pango_font_description_set_absolute_size(font, pixels * PANGO_SCALE);
  PangoLayout* layout = pango_layout_new(context);
  pango_layout_set_font_description(layout, font);
  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_fallback_new(FALSE));
  pango_layout_set_attributes(layout, attributes);
  pango_layout_set_text(layout, text.c_str(), -1);
  REQUIRE(pango_layout_get_unknown_glyphs_count(layout) == 0);
  PangoRectangle ink, logical;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, 0), &ink, &logical);
  pango_attr_list_unref(attributes);
  g_object_unref(layout);
  pango_font_description_free(font);
  g_object_unref(context);
  g_object_unref(map);
  const double em = pixels * PANGO_SCALE;
  return {logical.width / em, ink.x / em, -(ink.y + ink.height) / em, (ink.x + ink.width) / em, -ink.y / em};
}

struct Case {
  const char *face, *family, *language, *text;
};

const Case cases[] = {
    {"serif", "Vollkorn SemiBold", "en", "The Miller's Wheel, 1874"},
    {"serif", "Vollkorn SemiBold", "en", "AVATAR Tofu fficial Wave"},
    {"serif", "Vollkorn SemiBold", "pl", "Zażółć gęślą jaźń"},
    {"serif", "Vollkorn SemiBold", "el", "Το μύλο του ποταμού"},
    {"serif", "Vollkorn SemiBold", "ru", "Мельница у реки"},
    {"noto-serif", "Noto Serif Bold", "vi", "Nguyễn Thị Hường"},
    {"noto-hebrew", "Noto Serif Hebrew Bold", "he", "טחנת המים"},
    {"noto-naskh", "Noto Naskh Arabic Bold", "ar", "طاحونة الماء"},
    {"noto-devanagari", "Noto Serif Devanagari Bold", "hi", "क्षत्रिय पनचक्की"},
    {"noto-thai", "Noto Serif Thai Bold", "th", "กังหันน้ำ"},
};

}  // namespace

TEST_CASE("advances equal Pango's, and ink too within its rounding") {
  const FontLibrary library("none");
  Typesetter typesetter(library);
  for (const Case& c : cases) {
    INFO(c.face << ": " << c.text);
    const auto line = typesetter.shape(c.text, {{c.face}, c.language, c.language, {}, {"-lnum"}});  // as Pango
    REQUIRE(line.ok());
    for (const PlacedGlyph& glyph : line->glyphs) REQUIRE(typesetter.file(glyph.face).name == c.face);
    const Extents expected = extents_by_pango(c.family, c.language, c.text);
    const double unit = 1 / (pixels * PANGO_SCALE), count = double(line->glyphs.size());
    CHECK(line->advance == Approx(expected.advance).margin(unit * count));
    // A glyph's extents come in whole font units, and Pango rounds them outwards.
    const double slack = 2.5e-3;
    CHECK(line->ink.left == Approx(expected.left).margin(slack));
    CHECK(line->ink.right == Approx(expected.right).margin(slack));
    CHECK(line->ink.bottom == Approx(expected.bottom).margin(slack));
    CHECK(line->ink.top == Approx(expected.top).margin(slack));
  }
}
