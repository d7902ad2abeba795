#include "text/drawn.h"

#include <unicode/uchar.h>

#include <algorithm>

#include "cleaning/cleaning.h"
#include "cleaning/invisibles.h"

namespace ordinatio::inline text {
namespace {

using Faces = std::vector<std::unique_ptr<Face>>;

constexpr char32_t dotted_circle = U'◌';  // HarfBuzz puts it under a mark that has no letter to sit on

std::size_t letter_at(const std::vector<LineLetter>& letters, std::size_t byte) {
  const auto after = std::ranges::upper_bound(letters, byte, {}, &LineLetter::byte);
  return static_cast<std::size_t>(after - letters.begin()) - 1;
}

MaybeFault half_drawn(const ShapedLine& line, const std::vector<LineLetter>& letters, std::size_t line_number,
                      const Faces& faces) {
  const bool typed_circle = std::ranges::find(letters, dotted_circle, &LineLetter::character) != letters.end();
  for (const PlacedGlyph& glyph : line.glyphs) {
    const std::size_t index = letter_at(letters, glyph.cluster);
    const bool circle = !typed_circle && glyph.glyph != 0 && glyph.glyph == faces[glyph.face]->glyph_of(dotted_circle);
    if (glyph.glyph != 0 && !circle) continue;
    return Fault{character_name(letters[index].character) + " cannot be engraved",
                 place_in(letters, index, line_number),
                 circle ? "a mark stands without a letter that carries it"
                        : "the face " + faces[glyph.face]->file().name + " has no glyph for it here",
                 "Look at the order's text and ask the customer what was meant"};
  }
  return std::nullopt;
}

/// Whether a letter is seen where it is set, in any font.
bool shows(char32_t c) {
  constexpr char32_t empty_braille = 0x2800;
  const auto code = static_cast<UChar32>(c);
  const int type = u_charType(code);
  const bool is_sign = type == U_MATH_SYMBOL || type == U_CURRENCY_SYMBOL || type == U_OTHER_SYMBOL;
  return (is_sign || u_isalnum(code) || u_ispunct(code)) && !is_invisible(c) && c != empty_braille;
}

/// Then it is the face's own doing that the letter is not seen here: another glyph stands for both.
bool draws_alone(Face& face, char32_t letter) {
  const hb_codepoint_t glyph = face.glyph_of(letter);
  return glyph != 0 && !face.outline(glyph).ink.empty();
}

MaybeFault damaged(const ShapedLine& line, const std::vector<LineLetter>& letters, const Faces& faces) {
  const auto has_ink = [&faces](const PlacedGlyph& glyph) {
    return !faces[glyph.face]->outline(glyph.glyph).ink.empty();
  };
  for (const PlacedGlyph& glyph : line.glyphs) {
    if (has_ink(glyph)) continue;
    const Face& face = *faces[glyph.face];
    if (const std::string why = face.damage_of(glyph.glyph); !why.empty()) return face.damaged(why);
    const char32_t letter = letters[letter_at(letters, glyph.cluster)].character;
    if (!shows(letter)) continue;
    const bool drawn_beside = std::ranges::any_of(
        line.glyphs, [&](const PlacedGlyph& other) { return other.cluster == glyph.cluster && has_ink(other); });
    if (drawn_beside || draws_alone(*faces[glyph.face], letter)) continue;
    return face.damaged("it draws nothing for " + character_name(letter));
  }
  return std::nullopt;
}

}  // namespace

std::string place_in(const std::vector<LineLetter>& letters, std::size_t index, std::size_t line_number) {
  return "line " + std::to_string(line_number) + ", character " + std::to_string(letters[index].grapheme + 1);
}

MaybeFault undrawn(const ShapedLine& line, const std::vector<LineLetter>& letters, std::size_t line_number,
                   const Faces& faces) {
  if (auto fault = half_drawn(line, letters, line_number, faces)) return fault;
  return damaged(line, letters, faces);
}

}  // namespace ordinatio::inline text
