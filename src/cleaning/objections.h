// In: one line's letters. Out: the first thing in it that must not be engraved, and what to do about it.
// Never: changes a letter; asks whether a font draws it. Of this folder alone.
#pragma once

#include <optional>
#include <span>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// Controls, U+FFFD, emoji, bidi overrides, tags, private use, unassigned code points and the like, in reading order;
/// then embeddings and isolates that are not closed in the line, or closed without having been opened (UAX #9).
std::optional<Objection> object_to(std::span<const Letter> line);

}  // namespace ordinatio::inline cleaning
