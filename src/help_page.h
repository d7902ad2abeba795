// In: commands and options as plain words.
// Out: the pages that --help shows.
// Never: a line that is wider than a terminal of 80 columns, but for an example to be copied.
#pragma once

#include <string>

#include "command_tree.h"

namespace ordinatio {

std::string help_page(const ProgramWords& program);
std::string help_page(const ProgramWords& program, const CommandWords& command);

/// "ordinatio remake ITEM [options]": how the command is written.
std::string usage_of(const ProgramWords& program, const CommandWords& command);
/// "-h, --help"; "--sheet FILE"; "--dxf R12 or R2000".
std::string heading_of(const OptionWords& option);
/// "a, b or c".
std::string one_of(const std::vector<std::string>& words);

}  // namespace ordinatio
