// The command that plans the workshop's stations.
#pragma once

#include "command.h"

namespace ordinatio {

void add_plan_command(CLI::App& app, Common& common, int& code);

}  // namespace ordinatio
