// Shipped inside the program. Of this folder alone.
#pragma once

#include <string_view>

namespace ordinatio::inline strokes {

std::string_view alphabet_text();

}  // namespace ordinatio::inline strokes
