// Letters that one language draws otherwise than another. Of this folder alone.
#pragma once

#include "text/language.h"
#include "text/text.h"

namespace ordinatio::inline design {

/// Which letters of the lines would be drawn otherwise in a language that the text might be in, and in whose forms they are
/// set; empty where none differs. Told by the outlines that the faces draw.
std::string note_of_forms(const std::vector<std::string>& lines, const TextStyle& style, const ToldLanguage& told,
                          Typesetter& typesetter);

}  // namespace ordinatio::inline design
