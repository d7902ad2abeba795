// In: bytes of a text, known to cleaning.cpp and its tests alone. Out: the same Inscription by two ways.
// Never: part of what other folders call; that is clean_inscription in cleaning.h. Of this folder alone.
#pragma once

#include <optional>

#include "cleaning/cleaning.h"

namespace ordinatio::inline cleaning {

// ---- cleaning.cpp ----

/// The short way: printable ASCII in tidy lines, where nothing can need cleaning. Nothing for any other text.
std::optional<Inscription> clean_plain(std::string_view original, const CleaningRules& rules);
/// The long way, for every text.
Result<Inscription> clean_fully(std::string_view original, const CleaningRules& rules);

}  // namespace ordinatio::inline cleaning
