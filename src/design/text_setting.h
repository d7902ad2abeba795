// Sets one text of a design on one item. Of this folder alone.
#pragma once

#include "design/design.h"
#include "fit/size_bound.h"

namespace ordinatio {

/// What lettering measures as it is engraved, mm from the blank's lower-left corner. Widths are infinite where there is
/// nothing of the kind.
struct Legibility {
  double cap_height = 0, x_height = 0;  // of the smallest lettering
  Gauge stroke, counter;                // the thinnest ink and the narrowest counter, and where they are
};

struct SetText {
  Setting setting;
  Legibility legibility;
  std::vector<std::string> lines;              // as they are engraved
  std::vector<std::string> changes, warnings;  // what was done to set them; of that, what is worth a look
  MaybeFault illegible;
};

/// Faults: what no face draws, no room, lettering under the design's least cap height.
Result<SetText> set_text(const TextPart& part, const Words& words, Typesetter& typesetter);

/// What its lines cannot exceed, wherever they are set.
Result<SizeBound> bound_text(const TextPart& part, const Words& words, Typesetter& typesetter);
/// The same part in its sturdier face.
TextPart in_sturdier_face(const TextPart& part);

/// Every style that a text's lines may be set in: its own, then its roles'.
std::vector<TextStyle> text_styles_of(const TextPart& part, const std::string& told_language);

}  // namespace ordinatio
