// In: cleaned lines. Out: warnings about what a person should look at before it is engraved.
// Never: changes or holds anything. Of this folder alone.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// One line: words of several scripts (UTS #39: Han, kana, Hangul and Bopomofo go together, and with Latin), and
/// marks with no letter to stand on.
void doubt_line(std::span<const Letter> line, Findings& findings);
/// Before NFC: CJK compatibility ideographs, which NFC replaces by others that may look different.
void doubt_ideographs(std::span<const Letter> line, Findings& findings);
/// The whole text: all capitals, or a label such as "none" that was hardly meant to be engraved.
std::vector<std::string> doubt_text(std::span<const std::string> lines);

}  // namespace ordinatio::inline cleaning
