// How shop.toml's text becomes a Shop: what read_shop does once the file is read.
#pragma once

#include <string>
#include <string_view>

#include "workshop/workshop.h"

namespace ordinatio::inline workshop {

/// The workshop that a TOML text describes; what it leaves out keeps Shop's own defaults. Touches no file.
Result<Shop> parse_shop(std::string_view text, const std::string& file_name);

}  // namespace ordinatio::inline workshop
