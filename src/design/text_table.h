// Reads what a design says of lettering. Of this folder alone.
#pragma once

#include "design/design.h"
#include "design/toml_table.h"

namespace ordinatio::inline design {

TextPart read_text(TomlTable& text);
void read_operation(TomlTable& table, Operation& operation);
void read_language(TomlTable& table, std::string_view key, std::string& tag);

}  // namespace ordinatio::inline design
