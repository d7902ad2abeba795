// Whatever cleaning lets through is shaped without a .notdef, or held with what, where, why and the mend.
#include <cmath>
#include <cstdlib>

#include "cleaning/cleaning.h"
#include "text/text.h"

using namespace ordinatio;

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void require_drawn(const ShapedLine& line, Typesetter& typesetter) {
  require(std::isfinite(line.advance));
  for (const PlacedGlyph& glyph : line.glyphs) {
    require(glyph.glyph != 0 && glyph.cluster < line.text.size());
    require(std::isfinite(glyph.origin.x) && std::isfinite(glyph.origin.y));
  }
  Path ink;
  typesetter.append_ink(ink, line, 10, {0, 0}, 0.01);
  for (const Point p : ink.points()) require(std::isfinite(p.x) && std::isfinite(p.y));
}

/// Breaks lie between characters, and each part shows something.
void require_breaks(const std::string& line, LineBreaker& breaker) {
  std::size_t from = 0;
  for (const BreakPlace& place : breaker.places(line, "en")) {
    require(place.end > from && place.end <= place.begin && place.begin < line.size() && place.penalty >= 0);
    require((line[place.end] & 0xC0) != 0x80 && (line[place.begin] & 0xC0) != 0x80);
    from = place.begin;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
  static const FontLibrary library("none");
  static Typesetter typesetter(library);
  if (size > 400) return 0;  // longer texts are only slower
  const auto inscription = clean_inscription({reinterpret_cast<const char*>(bytes), size});
  if (!inscription.ok()) return 0;
  const TextStyle style{{"serif"}, "en", told_language(inscription->lines)};
  for (std::size_t i = 0; i < inscription->lines.size(); ++i) {
    require_breaks(inscription->lines[i], typesetter.breaker());
    for (const LetterCase letter_case : {LetterCase::upper, LetterCase::lower, LetterCase::title})
      require(!in_case(inscription->lines[i], letter_case, "tr").empty() || inscription->lines[i].empty());
    const auto line = typesetter.shape(inscription->lines[i], style, i + 1);
    if (line.ok()) {
      require_drawn(*line, typesetter);
    } else {
      require(!line.fault().what.empty() && !line.fault().where.empty() && !line.fault().mend.empty());
    }
  }
  return 0;
}
