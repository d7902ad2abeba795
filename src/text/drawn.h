// In: a line as it was shaped, and its letters. Out: what of it would not be seen on the piece.
// Never: shapes, or chooses a face. Of this folder alone.
#pragma once

#include "text/itemise.h"

namespace ordinatio::inline text {

/// "line 2, character 5"
std::string place_in(const std::vector<LineLetter>& letters, std::size_t index, std::size_t line_number);

/// What no face could show though it has every character; a glyph that is damaged; a letter that its face leaves out.
MaybeFault undrawn(const ShapedLine& line, const std::vector<LineLetter>& letters, std::size_t line_number,
                   const std::vector<std::unique_ptr<Face>>& faces);

}  // namespace ordinatio::inline text
