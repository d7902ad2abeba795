// `ordinatio desk`: the workshop in the browser of this machine.
#pragma once

#include "command.h"

namespace ordinatio {

/// Adds the command to the program; it serves until it is interrupted, then puts its exit code into `code`.
void add_desk_command(CLI::App& app, int& code);

}  // namespace ordinatio
