// Sets one text of a design on one item. Of this folder alone.
#pragma once

#include "design/setting_record.h"

namespace ordinatio::inline design {

/// What lettering measures as it is engraved, mm from the blank's lower-left corner. Widths are infinite where there is
/// nothing of the kind.
struct Legibility {
  double cap_height = 0, x_height = 0;  // of the smallest lettering
  Gauge stroke, counter;                // the thinnest ink and the narrowest closed counter, and where they are
  Gauge slit;                           // the narrowest open slit that the beam's spot fills deeply
  std::string slit_letter;              // whose that is
};

struct SetText {
  Setting setting;
  Legibility legibility;
  std::vector<std::string> lines;              // as they are engraved
  std::vector<std::string> changes, warnings;  // what was done to set them; of that, what is worth a look
  MaybeFault illegible;
};

/// A text's lines in one face, with what their case changed, and whose forms they have where that was not told for sure.
struct ReadyLines {
  PreparedLines lines;
  std::vector<std::string> changes, warnings;
  std::vector<TextStyle> styles;  // that its lines may be in
};
/// What of setting a text holds on every piece, once it has been asked for: of one part (its area and box left aside), an
/// item's words and a typesetter, for which alone it is good.
struct ReadyText {
  std::optional<Result<ReadyLines>> own, sturdier;
};

/// A text of a design, and its room on the piece.
struct TextOnPiece {
  const TextPart& part;
  const TextRoom& room;
};

/// Faults: what no face draws, no room, lettering under the design's least cap height. `record`: of the same part on the
/// same piece, and of the same words; or a new one.
Result<SetText> set_text(const TextOnPiece& on_piece, const Words& words, Typesetter& typesetter, ReadyText& ready,
                         SettingRecord& record);

/// What its lines cannot exceed, wherever they are set: in its own face, then in the sturdier one where it has one that
/// draws them.
Result<std::vector<SizeBound>> bound_text(const TextPart& drawn, const Words& words, Typesetter& typesetter,
                                          ReadyText& ready);

/// What is engraved of a text that is set, mm.
Path ink_of(const SetText& text, Typesetter& typesetter);

/// Every style that a text's lines may be set in: its own, then its roles'.
std::vector<TextStyle> text_styles_of(const TextPart& part, const std::string& told_language,
                                      const FormerWays& ways = {});

}  // namespace ordinatio::inline design
