// What an item's own wishes make of the customer's words in a design. Of this folder alone.
#pragma once

#include "design/text_setting.h"

namespace ordinatio::inline design {

/// The text as the item wishes it; nothing where that is as the design has it. Faults: capitals lower than the design's
/// least, a wish that cannot be read.
Result<std::optional<TextPart>> wished_part(const TextPart& part, const SettingWish& wish);

/// Moves a text that is set. Faults: its ink would leave its room, or come nearer to another part than it may; says how
/// far it may go.
MaybeFault nudge_text_on(const TextOnPiece& on_piece, Point by, SetText& text, Typesetter& typesetter);

}  // namespace ordinatio::inline design
