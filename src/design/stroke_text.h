// Texts in a stroke face: lines that are followed, never filled. Of this folder alone.
#pragma once

#include "design/text_setting.h"
#include "design/toml_table.h"

namespace ordinatio::inline design {

/// Whether the text's own face is one of lines.
bool is_in_strokes(const TextPart& part);

/// What a design's table may ask of such a text: all of its faces are of lines, and it is not engraved. Where the table says no
/// operation it is scored. Remembers Faults in the file.
void check_strokes(TomlTable& table, TextPart& part);

/// The same for a text whose face a customer chose: it is scored or engraved as that face is, and stand-ins of the other kind are
/// left out.
void settle_strokes(TextPart& part);

/// Where the middle of the spot may go, so that the line it leaves stays in the room. Faults: nothing is left.
Result<TextRoom> room_for_line(const TextPart& part, const TextRoom& room);

}  // namespace ordinatio::inline design
