// Letters as lines: the project's own alphabet (fonts/stroke.txt), upright and slanted, with the accents that Unicode's
// decompositions put together from its marks.
#pragma once

#include <map>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "geometry/geometry.h"

namespace ordinatio::inline strokes {

/// One letter as it is followed, in the alphabet's grid: capitals are `stroke_capitals` high, y up, the pen at 0.
struct StrokeGlyph {
  Path path;  // open strokes; one that goes round ends where it began
  double advance = 0;
};
inline constexpr double stroke_capitals = 100;
inline constexpr double stroke_line = 10;   // what the line's width is drawn for
inline constexpr double stroke_em = 140;    // capitals are 0.714 em, as those of other faces
inline constexpr double stroke_slant = 75;  // degrees, of the slanted form's uprights (ISO 3098, from memory)

class StrokeAlphabet {
 public:
  /// Of the text of fonts/stroke.txt; what is wrong in it is a bug and throws.
  StrokeAlphabet(std::string_view text, double slant);
  /// Nothing where the alphabet has no such letter; combining marks are letters of no advance.
  [[nodiscard]] const StrokeGlyph* glyph(char32_t character) const;
  /// How much nearer the right letter stands to the left one.
  [[nodiscard]] double kerning(char32_t left, char32_t right) const;

 private:
  std::map<char32_t, StrokeGlyph> glyphs_;
  std::map<std::pair<char32_t, char32_t>, double> kerning_;
  std::map<char32_t, char32_t> base_;  // the letter that others are put together from
};

// ---- words_in_strokes.cpp ----
/// A line of words as strokes, from its pen on the baseline at 0, in mm for capitals of that height. Faults: a character that
/// the alphabet has not, by its place.
Result<Path> words_in_strokes(const StrokeAlphabet& alphabet, std::string_view words, double capitals);

// ---- stroke_faces.cpp ----
/// As designs name them: "stroke" and "stroke-slanted".
const std::vector<std::string_view>& stroke_face_names();
/// Nothing where no stroke alphabet is called so. Read once.
const StrokeAlphabet* stroke_face(std::string_view name);
/// SHA-256 of what the face is made from.
std::string_view stroke_face_checksum(std::string_view name);

}  // namespace ordinatio::inline strokes
