// In: a line's letters, and the faces that may set them. Out: a face for each letter, one for a word and one for a number.
// Never: opens a face, or shapes a line. Of this folder alone.
#pragma once

#include <functional>
#include <span>

#include "text/face_units.h"

namespace ordinatio {

/// What may set a line, and what is asked of it.
struct FaceRoster {
  std::vector<FaceId> own;  // the design's face, then those that the design names beside it
  bool own_alone = false;   // the design's face is decorative: no face stands in for it that the design does not name
  std::string_view line;
  std::size_t line_number = 1;  // for messages
  /// What stands in for the design's faces, in order, for letters of a script; a Fault where one of them is damaged.
  std::function<const std::vector<Result<FaceId>>&(int script)> fallback;
  std::function<bool(FaceId, char32_t)> draws;
  /// Whether each mark of these letters, a grapheme that the face draws, sits on its letter.
  std::function<bool(FaceId, std::span<const LineLetter>)> sits;
  std::function<std::string(FaceId)> name;
};

/// Joiners, directions and variation selectors, which a face need not have.
bool needs_no_glyph(char32_t character);

/// A word goes to the first face that draws all of it, with every mark on its letter; so does a number with the signs inside
/// it. A sign stays with the word it touches, where that word's face has it; where no face has both, it comes from another:
/// Hebrew letters with an apostrophe. A sentence in a script without spaces, which no
/// one face draws, is set letter by letter. Faults: a letter that no face draws, or a word that none sets whole, with its
/// place.
MaybeFault choose_faces(std::vector<LineLetter>& letters, const FaceRoster& roster);

}  // namespace ordinatio
