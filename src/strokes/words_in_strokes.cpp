#include <unicode/uchar.h>

#include "base/utf8.h"
#include "strokes/alphabet.h"

namespace ordinatio::inline strokes {
namespace {

std::string unicode_name(char32_t character) {
  constexpr int name_limit = 200;
  char name[name_limit] = "";
  UErrorCode status = U_ZERO_ERROR;
  u_charName(static_cast<UChar32>(character), U_EXTENDED_CHAR_NAME, name, name_limit, &status);
  return name;
}

}  // namespace

Result<Path> words_in_strokes(const StrokeAlphabet& alphabet, std::string_view words, double capitals) {
  Path path;
  const double scale = capitals / stroke_capitals;
  double pen = 0;
  char32_t last = 0;
  int place = 0;
  for (std::size_t at = 0; at < words.size();) {
    const char32_t character = next_character(words, at);
    ++place;
    const StrokeGlyph* glyph = alphabet.glyph(character);
    if (glyph == nullptr) {
      return Fault{"the stroke alphabet has no " + unicode_name(character), "character " + std::to_string(place), "",
                   "Write it otherwise"};
    }
    pen -= alphabet.kerning(last, character);
    path.append(glyph->path, {scale, 0, 0, scale, scale * pen, 0});
    pen += glyph->advance;
    last = character;
  }
  return path;
}

}  // namespace ordinatio::inline strokes
