// The catalogue of faces as it ships inside the program: the bytes of fonts/catalogue.toml.
#pragma once

#include <string_view>

namespace ordinatio {

std::string_view catalogue_text();

}  // namespace ordinatio
