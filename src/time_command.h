// The command that says how long the machine takes.
#pragma once

#include "command.h"

namespace ordinatio {

void add_time_command(CLI::App& app, Common& common, int& code);

}  // namespace ordinatio
