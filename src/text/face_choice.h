// In: a line's letters, and the faces that may set them. Out: a face for each letter, one for a word and one for a number.
// Never: opens a face, or shapes a line. Of this folder alone.
#pragma once

#include <functional>
#include <span>

#include "text/face_units.h"

namespace ordinatio::inline text {

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
  /// By script_group(): what a word of the script is set in if it can be, before all others; a number that touches it, too.
  std::vector<std::pair<int, FaceId>> by_script = {};
  bool of_lines = false;  // the design's face is a stroke alphabet
};

/// A line of a block, with what may set it.
struct RosteredLine {
  std::vector<LineLetter> letters;
  FaceRoster roster;
};

/// Joiners, directions and variation selectors, which a face need not have.
bool needs_no_glyph(char32_t character);

/// Where the first of the rosters' own faces, which are the same for all lines, does not set every word of a script: the first
/// of the others, in the rosters' order, that sets all of them; nothing where none does, or a face on the way is damaged.
std::vector<std::pair<int, FaceId>> faces_by_script(std::vector<RosteredLine>& block);

/// A word goes to the first face that draws all of it, with every mark on its letter; so does a number with the signs inside
/// it. A sign stays with the word it touches, where that word's face has it; where no face has both, it comes from another:
/// Hebrew letters with an apostrophe. A sentence in a script without spaces, which no
/// one face draws, is set letter by letter. Faults: a letter that no face draws, or a word that none sets whole, with its
/// place.
MaybeFault choose_faces(std::vector<LineLetter>& letters, const FaceRoster& roster);

}  // namespace ordinatio::inline text
