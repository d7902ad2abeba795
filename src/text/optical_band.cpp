#include "text/optical_band.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <map>

#include "base/utf8.h"
#include "text/itemise.h"

namespace ordinatio::inline text {
namespace {

constexpr double tall = 0.93;    // of the capitals' height: ascenders and lining figures stand as tall
constexpr double hanging = 0.5;  // of the descenders' depth: what hangs less is a round letter or a tail
constexpr double beyond =
    0.2;  // of a body's height: what reaches less beyond it is a loop on the headline, or a round foot

/// The letters of a line that are of one script and one face.
struct Group {
  Bounds ink;
  double area = 0, moment = 0;
  int descending = 0;
  bool letters = false;        // letters or figures, not signs alone
  bool small_letters = false;  // drawn smaller than capitals
  bool small_ones = false;     // or figures drawn like them
  bool tall_ones = false;
  std::map<std::size_t, Bounds> with_marks;  // each letter with its marks, by the byte where it begins

  [[nodiscard]] double centroid() const { return moment / area; }
};
using Groups = std::map<std::pair<FaceId, std::int16_t>, Group>;

bool is_em_box(int script) {
  return script == USCRIPT_HAN || script == USCRIPT_HIRAGANA || script == USCRIPT_KATAKANA ||
         script == USCRIPT_HANGUL || script == USCRIPT_BOPOMOFO;
}

void add_letter(Group& group, char32_t character, const Bounds& ink, const ScriptHeights& heights) {
  const auto c = static_cast<UChar32>(character);
  const bool is_figure = u_isdigit(c) != 0;
  if (!is_figure && u_isalpha(c) == 0) return;
  group.letters = true;
  if (heights.small_top == 0) return;
  // Old-style figures rise and hang like small letters.
  const bool small = is_figure ? ink.top < tall * heights.top : u_charType(c) == U_LOWERCASE_LETTER;
  group.small_letters |= small && !is_figure;
  group.small_ones |= small;
  group.tall_ones |= ink.top > tall * heights.top;
  if (small && ink.bottom < -hanging * heights.descender) ++group.descending;
}

Groups groups_of(const ShapedLine& line, Typesetter& typesetter) {
  Groups groups;
  for (const PlacedGlyph& glyph : line.glyphs) {
    const GlyphOutline& outline = typesetter.outline(glyph.face, glyph.glyph);
    if (outline.ink.empty()) continue;
    Group& group = groups[{glyph.face, glyph.script}];
    const Bounds ink = outline.ink.shifted(glyph.origin);
    group.ink.add(ink);
    group.with_marks[glyph.cluster].add(ink);
    group.area += outline.area;
    group.moment += outline.area * (outline.centroid.y + glyph.origin.y);
    std::size_t at = glyph.cluster;
    add_letter(group, next_character(line.text, at), ink, typesetter.heights(glyph.face, glyph.script));
  }
  return groups;
}

/// A band as high as the ink, about its centroid.
OpticalBand about_centroid(const Group& group) {
  const double half = group.ink.height() / 2;
  return {group.centroid() + half, group.centroid() - half, group.centroid(), group.area};
}

OpticalBand cased_band(const Group& group, const ScriptHeights& heights) {
  if (!group.small_ones) return {heights.top, 0, heights.top / 2, group.area};
  const double top = group.tall_ones ? (heights.top + heights.small_top) / 2 : heights.small_top;
  const bool hangs = group.descending >= descenders_that_count;
  return {top, hangs ? -descender_share * heights.descender : 0, group.centroid(), group.area, group.small_letters};
}

OpticalBand arabic_band(const Group& group, const ScriptHeights& heights) {
  const double down = bowl_share * (group.centroid() - (heights.top + heights.bottom) / 2);
  return {heights.top + down, heights.bottom + down, group.centroid(), group.area};
}

/// How far letters reach beyond the body to one side, on the average of those that do.
struct Reach {
  double sum = 0;
  int letters = 0;

  void take(double reach, double body) {
    if (reach > beyond * body) sum += reach, ++letters;
  }
  [[nodiscard]] double share() const { return letters < letters_that_count ? 0 : reach_share * sum / letters; }
};

/// A plain letter's body, and of vowel signs, stacked letters and stems what makes itself felt above and below it.
OpticalBand bodied_band(const Group& group, const ScriptHeights& heights) {
  const double body = heights.top - heights.bottom;
  Reach above, below;
  for (const auto& [at, ink] : group.with_marks) {
    above.take(ink.top - heights.top, body);
    below.take(heights.bottom - ink.bottom, body);
  }
  return {heights.top + above.share(), heights.bottom - below.share(), group.centroid(), group.area};
}

OpticalBand band_of(const Group& group, int script, const ScriptHeights& heights) {
  // Signs alone: a point or a dash is wanted where its ink is.
  if (!group.letters) return {group.ink.top, group.ink.bottom, group.ink.centre().y, group.area};
  if (!heights.measured) return about_centroid(group);
  if (heights.climbs) {
    OpticalBand band = about_centroid(group);
    band.climbs = true;
    return band;
  }
  if (is_alphabetic(script)) return cased_band(group, heights);
  if (script == USCRIPT_ARABIC) return arabic_band(group, heights);
  const double middle = (heights.top + heights.bottom) / 2;
  if (is_em_box(script)) return {heights.top, heights.bottom, middle, group.area};
  return bodied_band(group, heights);
}

}  // namespace

OpticalBand optical_band(const ShapedLine& line, Typesetter& typesetter) {
  const Groups groups = groups_of(line, typesetter);
  bool letters = false;
  for (const auto& [key, group] : groups) letters |= group.letters;
  OpticalBand whole;
  for (const auto& [key, group] : groups) {
    if (!(group.area > 0) || (letters && !group.letters)) continue;  // signs in another face than their letters'
    const OpticalBand band = band_of(group, key.second, typesetter.heights(key.first, key.second));
    whole.top += band.ink * band.top;
    whole.bottom += band.ink * band.bottom;
    whole.centre += band.ink * band.centre;
    whole.ink += band.ink;
    whole.small_letters |= band.small_letters;
    whole.climbs |= band.climbs;
  }
  if (whole.ink == 0) return {line.ink.empty() ? 0 : line.ink.top, line.ink.empty() ? 0 : line.ink.bottom};
  whole.top /= whole.ink, whole.bottom /= whole.ink, whole.centre /= whole.ink;
  return whole;
}

}  // namespace ordinatio::inline text
