// `ordinatio help`: the manual's pages, and what each command takes.
#pragma once

#include <CLI/CLI.hpp>

namespace ordinatio {

/// Adds the command to the program; it puts its exit code into `code` when it is run. Add it when all others are there.
void add_help_command(CLI::App& app, int& code);

}  // namespace ordinatio
