#include "text/claims.h"
#include "cleaning/letters.h"

#include <hb-ot.h>
#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include <algorithm>
#include <array>

namespace ordinatio::inline text {
namespace {

/// Letters that whoever claims the script has, and the bit of OS/2's ulUnicodeRange that claims it (OpenType 1.9).
struct ScriptClaim {
  UScriptCode script;
  const char* name;
  unsigned bit;
  std::array<std::pair<char32_t, char32_t>, 2> letters;
};
constexpr ScriptClaim claims[] = {
    {USCRIPT_LATIN, "Latin", 0, {{{'A', 'Z'}, {'a', 'z'}}}},
    {USCRIPT_GREEK, "Greek", 7, {{{0x391, 0x3A9}, {0x3B1, 0x3C9}}}},
    {USCRIPT_CYRILLIC, "Cyrillic", 9, {{{0x410, 0x42F}, {0x430, 0x44F}}}},
    {USCRIPT_ARMENIAN, "Armenian", 10, {{{0x531, 0x556}, {0x561, 0x586}}}},
    {USCRIPT_HEBREW, "Hebrew", 11, {{{0x5D0, 0x5EA}, {0x5D0, 0x5EA}}}},
    {USCRIPT_ARABIC, "Arabic", 13, {{{0x627, 0x63A}, {0x641, 0x64A}}}},
    {USCRIPT_DEVANAGARI, "Devanagari", 15, {{{0x905, 0x914}, {0x915, 0x939}}}},
    {USCRIPT_THAI, "Thai", 24, {{{0xE01, 0xE2E}, {0xE40, 0xE44}}}},
    {USCRIPT_GEORGIAN, "Georgian", 26, {{{0x10D0, 0x10F0}, {0x10D0, 0x10F0}}}},
    {USCRIPT_HIRAGANA, "hiragana", 49, {{{0x3042, 0x304A}, {0x304B, 0x3082}}}},
    {USCRIPT_KATAKANA, "katakana", 50, {{{0x30A2, 0x30AA}, {0x30AB, 0x30E2}}}},
    {USCRIPT_HANGUL, "hangul", 56, {{{0xAC00, 0xD7A3}, {0xAC00, 0xD7A3}}}},
};

bool is_in(const ScriptClaim& claim, char32_t c) {
  return std::ranges::any_of(claim.letters, [c](const auto& range) { return c >= range.first && c <= range.second; });
}

/// A face for other letters may have π and µ for sums, and says the same of them as of all Greek.
constexpr std::size_t a_few = 12;

std::size_t drawn_of(const Face& face, const ScriptClaim& claim) {
  std::size_t drawn = 0;
  for (const auto& [first, last] : claim.letters) {
    for (char32_t c = first; c <= last && drawn <= a_few; ++c) drawn += face.draws(c) ? 1 : 0;
  }
  return drawn;
}

/// A face for another script says that it has Latin for its points and figures alone.
bool is_for_other_letters(const Face& face) {
  const std::unique_ptr<hb_set_t, Destroyer<hb_set_destroy>> characters(hb_set_create());
  hb_face_collect_unicodes(hb_font_get_face(face.font()), characters.get());
  std::size_t others = 0;
  for (hb_codepoint_t c = HB_SET_VALUE_INVALID; others <= a_few && hb_set_next(characters.get(), &c);) {
    others += u_isalpha(static_cast<UChar32>(c)) && script_of(c) != USCRIPT_LATIN ? 1 : 0;
  }
  return others > a_few;
}

bool bit_is_set(const Face& face, unsigned bit) {
  const std::unique_ptr<hb_blob_t, Destroyer<hb_blob_destroy>> table(
      hb_face_reference_table(hb_font_get_face(face.font()), HB_TAG('O', 'S', '/', '2')));
  constexpr unsigned ranges_at = 42;  // ulUnicodeRange1 to 4, the least bits last in each
  const unsigned at = ranges_at + 4 * (bit / 32) + 3 - bit % 32 / 8;
  unsigned size = 0;
  const char* bytes = hb_blob_get_data(table.get(), &size);
  return at < size && (static_cast<unsigned char>(bytes[at]) >> bit % 8 & 1U) != 0;
}

bool is_claimed(const Face& face, const CatalogueFace* known, const ScriptClaim& claim) {
  if (known != nullptr) {
    return std::ranges::find(known->scripts, script_tag(claim.script)) != known->scripts.end();
  }
  if (!bit_is_set(face, claim.bit)) return false;
  const std::size_t drawn = drawn_of(face, claim);
  constexpr unsigned extended_latin = 2;  // which no face has for its points and figures
  if (claim.script == USCRIPT_LATIN) {
    return drawn > 0 || bit_is_set(face, extended_latin) || !is_for_other_letters(face);
  }
  return drawn == 0 || drawn > a_few;
}

}  // namespace

std::string broken_claim(const Face& face, const CatalogueFace* known, std::span<const LineLetter> letters) {
  for (const ScriptClaim& claim : claims) {
    bool asked = false, drawn = false;
    for (const LineLetter& letter : letters) {
      if (!is_in(claim, letter.character)) continue;
      asked = true;
      if ((drawn = face.draws(letter.character))) break;
    }
    if (!asked || drawn || !is_claimed(face, known, claim)) continue;
    return std::string("it claims ") + claim.name + " letters and draws none of this text's";
  }
  return "";
}

}  // namespace ordinatio::inline text
