// Of this folder alone.
#pragma once

#include <string_view>

namespace ordinatio::inline text {

/// fonts/catalogue.toml, as it was when the program was built.
std::string_view catalogue_text();

}  // namespace ordinatio::inline text
