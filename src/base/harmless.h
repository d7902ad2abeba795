// Text from cells, paths and options on its way to a terminal, a list or a data file.
#pragma once

#include <string>
#include <string_view>

namespace ordinatio::inline base {

/// Whether the text holds what steers instead of being read: a control character (C0, DEL, C1; an escape sequence begins
/// with one), or a mark that turns the direction of reading or cuts it (Unicode's Bidi_Control, ALM included), or a line or
/// paragraph separator of Unicode's. Line ends and tabs only where `line_ends` says that they count.
bool steers(std::string_view text, bool line_ends = true);

/// The same text with pictures in place of what steers: `␛` for escape, `‹U+202E›` for what has no picture. Bytes that are
/// no UTF-8 become U+FFFD. Line ends and tabs stay only where `keep_line_ends`.
std::string harmless(std::string_view text, bool keep_line_ends = false);

/// JSON that is written already, with Bidi_Control and DEL to C1 as \u escapes, too: it reads back the same.
std::string with_escaped_marks(std::string_view json);

}  // namespace ordinatio::inline base
