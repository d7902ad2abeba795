// In: letters. Out: where an emoji begins and how long it is (UTS #51).
// Never: decides what a font can draw; ♥, ☺ and © without U+FE0F are signs, not emoji. Of this folder alone.
#pragma once

#include <span>

#include "cleaning/letters.h"

namespace ordinatio::inline cleaning {

/// How many letters the emoji at the start of `letters` takes, with its modifiers, joined parts and tags; 0: none.
std::size_t emoji_length(std::span<const Letter> letters);

}  // namespace ordinatio::inline cleaning
