// How a design's text becomes a Design, without the logos' files: what read_design does between reading and
// logos.
#pragma once

#include <string>
#include <string_view>

#include "design/design.h"

namespace ordinatio::inline design {

/// The design that a TOML text describes; logos are named and not yet read, the checksum is empty. Touches no
/// file.
Result<Design> parse_design(std::string_view text, const std::string& file_name, const std::string& name);

// ---- language.cpp ----
/// Whether a text is a BCP 47 language tag whose language ICU knows: "en-GB", "zh-Hant".
bool is_language(const std::string& tag);

}  // namespace ordinatio::inline design
