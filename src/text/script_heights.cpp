#include <unicode/uscript.h>

#include <algorithm>

#include "text/face.h"

namespace ordinatio::inline text {
namespace {

/// The letters that a script with capitals is measured by. Flat ones, that stand on the line and reach no higher than
/// their like.
struct CasedLetters {
  int script;
  char32_t capital, small, descending;
};
constexpr CasedLetters cased[] = {{USCRIPT_LATIN, U'H', U'x', U'p'},
                                  {USCRIPT_GREEK, U'\u0397', U'\u03BA', U'\u03C1'},
                                  {USCRIPT_CYRILLIC, U'\u041D', U'\u043D', U'\u0440'},
                                  {USCRIPT_ARMENIAN, U'\u0540', U'\u0561', U'\u057A'}};

/// A plain letter of a script without capitals, which shows the body that a reader takes for its height: final mem, ko kai,
/// ka under its headline (of Tibetan ma, whose legs are short). Of Arabic the alef; of Han a sign whose frame fills the em box, for kana and hangul too.
struct PlainLetter {
  int script;
  char32_t letter;
};
constexpr PlainLetter plain[] = {
    {USCRIPT_HEBREW, 0x05DD},     {USCRIPT_ARABIC, 0x0627},   {USCRIPT_THAI, 0x0E01},
    {USCRIPT_LAO, 0x0E81},        {USCRIPT_KHMER, 0x1780},    {USCRIPT_MYANMAR, 0x1000},
    {USCRIPT_DEVANAGARI, 0x0915}, {USCRIPT_BENGALI, 0x0995},  {USCRIPT_GURMUKHI, 0x0A15},
    {USCRIPT_GUJARATI, 0x0A95},   {USCRIPT_ORIYA, 0x0B15},    {USCRIPT_TAMIL, 0x0B95},
    {USCRIPT_TELUGU, 0x0C15},     {USCRIPT_KANNADA, 0x0C95},  {USCRIPT_MALAYALAM, 0x0D15},
    {USCRIPT_SINHALA, 0x0D9A},    {USCRIPT_TIBETAN, 0x0F58},  {USCRIPT_GEORGIAN, 0x10D0},
    {USCRIPT_ETHIOPIC, 0x1200},   {USCRIPT_CHEROKEE, 0x13A0}, {USCRIPT_CANADIAN_ABORIGINAL, 0x1455},
    {USCRIPT_RUNIC, 0x16A0},      {USCRIPT_TIFINAGH, 0x2D63}, {USCRIPT_HAN, 0x570B},
    {USCRIPT_HIRAGANA, 0x570B},   {USCRIPT_KATAKANA, 0x570B}, {USCRIPT_HANGUL, 0x570B},
    {USCRIPT_BOPOMOFO, 0x570B},
};

constexpr double least_climb = 0.2;   // em; the letters of a level hand do not leave the line at all
constexpr double as_capitals = 0.93;  // of their height: small letters as tall as that are drawn as capitals

/// Whether five seens, which join into one word and have no dots, climb.
bool climbs(const Face& face) {
  constexpr std::string_view word = "\u0633\u0633\u0633\u0633\u0633";
  const HbBuffer buffer(hb_buffer_create());
  hb_buffer_add_utf8(buffer.get(), word.data(), static_cast<int>(word.size()), 0, static_cast<int>(word.size()));
  hb_buffer_set_direction(buffer.get(), HB_DIRECTION_RTL);
  hb_buffer_set_script(buffer.get(), HB_SCRIPT_ARABIC);
  hb_buffer_set_language(buffer.get(), hb_language_from_string("ur", -1));
  hb_shape(face.font(), buffer.get(), nullptr, 0);
  unsigned count = 0;
  const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer.get(), &count);
  return std::any_of(places, places + count,
                     [&](const hb_glyph_position_t& place) { return face.em(place.y_offset) > least_climb; });
}

ScriptHeights measured_heights(Face& face, int script) {
  const auto ink_of = [&face](char32_t letter) {
    const hb_codepoint_t glyph = face.glyph_of(letter);
    return glyph == 0 ? Bounds{} : face.outline(glyph).ink;
  };
  ScriptHeights heights;
  if (const auto letters = std::ranges::find(cased, script, &CasedLetters::script); letters != std::end(cased)) {
    const Bounds capital = ink_of(letters->capital), small = ink_of(letters->small),
                 hangs = ink_of(letters->descending);
    if (capital.empty()) return heights;
    heights = {capital.top, 0, 0, 0, true, false};
    if (small.empty() || small.top > as_capitals * capital.top) return heights;
    heights.small_top = small.top;
    heights.descender = hangs.empty() ? 0 : std::max(0.0, -hangs.bottom);
    return heights;
  }
  const auto letter = std::ranges::find(plain, script, &PlainLetter::script);
  const Bounds ink = letter == std::end(plain) ? Bounds{} : ink_of(letter->letter);
  if (ink.empty()) return heights;
  const bool stands = script == USCRIPT_ARABIC;  // an alef that hangs a little over the line stands on it
  return {ink.top, stands ? 0 : ink.bottom, 0, 0, true, stands && climbs(face)};
}

}  // namespace

const ScriptHeights& Face::heights(int script) {
  if (const auto known = heights_.find(script); known != heights_.end()) return known->second;
  return heights_.emplace(script, measured_heights(*this, script)).first->second;
}

}  // namespace ordinatio::inline text
