#include "text/letter_space.h"

#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>

#include "cleaning/invisibles.h"

namespace ordinatio::inline text {
namespace {

std::size_t index_at(const std::vector<LineLetter>& letters, std::size_t byte) {
  const auto found = std::ranges::lower_bound(letters, byte, {}, &LineLetter::byte);
  return static_cast<std::size_t>(found - letters.begin());
}

/// Whether the letter at `index` makes one form with what stands before it: a stack, or a conjunct whose virama does not
/// show (Unicode's Indic_Syllabic_Category). Tamil shows it, and Sinhala where no joiner follows (The Unicode Standard
/// 15.0, 12.6 and 13.2).
bool is_conjoined(const std::vector<LineLetter>& letters, std::size_t index) {
  constexpr char32_t zero_width_joiner = 0x200D;
  const bool joined = letters[index - 1].character == zero_width_joiner;
  if (joined && --index == 0) return false;
  const LineLetter& sign = letters[index - 1];
  const int category = u_getIntPropertyValue(static_cast<UChar32>(sign.character), UCHAR_INDIC_SYLLABIC_CATEGORY);
  if (category == U_INSC_INVISIBLE_STACKER) return true;
  if (category != U_INSC_VIRAMA || sign.script == USCRIPT_TAMIL) return false;
  return joined || sign.script != USCRIPT_SINHALA;
}

}  // namespace

bool joins(int script) {
  // As people who work on shaping list them (https://github.com/harfbuzz/harfbuzz/issues/64), and the cursive scripts of
  // Unicode's ArabicShaping.txt that came later.
  constexpr int joined[] = {USCRIPT_ARABIC, USCRIPT_SYRIAC, USCRIPT_NKO, USCRIPT_MANICHAEAN, USCRIPT_PSALTER_PAHLAVI,
                            USCRIPT_MANDAIC, USCRIPT_MONGOLIAN, USCRIPT_PHAGS_PA, USCRIPT_ADLAM,
                            USCRIPT_HANIFI_ROHINGYA, USCRIPT_SOGDIAN, USCRIPT_CHORASMIAN, USCRIPT_OLD_UYGHUR,
                            // Hung from one headline.
                            USCRIPT_DEVANAGARI, USCRIPT_BENGALI, USCRIPT_GURMUKHI, USCRIPT_MODI, USCRIPT_SHARADA,
                            USCRIPT_SYLOTI_NAGRI, USCRIPT_TIRHUTA,
                            // Strung on one stem.
                            USCRIPT_OGHAM};
  return std::ranges::find(joined, script) != std::end(joined);
}

double space_after(const std::vector<LineLetter>& letters, std::size_t byte, double letter_spacing) {
  const LineLetter& letter = letters[index_at(letters, byte)];
  return joins(letter.script) || is_invisible(letter.character) ? 0 : letter_spacing;
}

double space_between(const std::vector<LineLetter>& letters, std::size_t byte, std::size_t other_byte,
                     double letter_spacing) {
  const std::size_t later = index_at(letters, std::max(byte, other_byte));
  return later > 0 && is_conjoined(letters, later) ? 0 : space_after(letters, byte, letter_spacing);
}

double space_at_end(const std::vector<LineLetter>& letters, const std::vector<PlacedGlyph>& glyphs,
                    double letter_spacing) {
  for (auto glyph = glyphs.rbegin(); glyph != glyphs.rend(); ++glyph) {
    if (is_invisible(letters[index_at(letters, glyph->cluster)].character)) continue;
    return space_after(letters, glyph->cluster, letter_spacing);
  }
  return 0;
}

}  // namespace ordinatio::inline text
