// In: a letter with its marks, as a face shapes them. Out: whether each mark sits on its letter. Never: moves one. Of this
// folder alone.
#pragma once

#include <span>
#include <unordered_map>

#include "text/ink.h"
#include "text/run_shaping.h"

namespace ordinatio::inline text {

/// Whether a grapheme has marks whose place the face decides: combining ones, not selectors.
bool has_marks(std::span<const LineLetter> grapheme);

/// Judges Latin, Greek, Cyrillic and Armenian marks by what Unicode says of their place (canonical combining class) and by
/// geometry: above, below, through or at the edge of their letter, clear of other ink, no further away than composed
/// letters of the catalogue's faces have them. Marks of other scripts are shaped by rules of their own; they are only
/// refused where HarfBuzz would guess.
class MarkJudge {
 public:
  using FaceOf = std::function<const Face&(FaceId)>;
  using OutlineOf = std::function<const GlyphOutline&(const PlacedGlyph&)>;
  MarkJudge(FaceOf face_of, OutlineOf outline_of, InkCache& ink)
      : face_of_(std::move(face_of)), outline_of_(std::move(outline_of)), ink_(ink) {}

  /// Whether the face sets the grapheme, which has marks, so that each of them sits. `request` is of the grapheme alone.
  bool sits(FaceId face, std::span<const LineLetter> grapheme, const RunRequest& request);
  /// The same of its glyphs as they came out in a line.
  bool sits(std::span<const PlacedGlyph> glyphs, std::span<const LineLetter> grapheme, const RunRequest& request);

 private:
  struct Verdict {
    bool sits = false;
    std::vector<bool> anchored;  // of each glyph: the face's own anchors put it there
  };
  const Verdict& verdict(FaceId face, std::span<const LineLetter> grapheme, const RunRequest& request);
  [[nodiscard]] Bounds letter_ink(const PlacedGlyph& glyph, std::span<const LineLetter> grapheme,
                                  const Face& face) const;
  bool judge(std::span<const PlacedGlyph> glyphs, std::span<const LineLetter> grapheme,
             const std::vector<bool>& anchored);

  FaceOf face_of_;
  OutlineOf outline_of_;
  InkCache& ink_;
  HbBuffer buffer_{hb_buffer_create()};
  std::unordered_map<std::string, Verdict> verdicts_;
};

}  // namespace ordinatio::inline text
