// What a page tells the maker to do, step by step: files to save and commands to give, in the page's order.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "../main/workshop.h"

namespace ordinatio {

struct ManualStep {
  enum class Kind { command, file } kind = Kind::command;
  std::string text;  // the command as a shell takes it, or what is in the file
  std::string file;  // its place in the workshop; shop.toml is added to, in the table that is named, others are written
};

/// Blocks fenced as ```sh hold commands, one a line; those with a file's name behind the language hold that file.
std::vector<ManualStep> steps_of(std::string_view page);

/// What a step came to. log: all that it printed.
struct StepOutcome {
  int code = -1;  // -1: it was never reached
  std::string log;
};

/// One shell goes through all of it in the workshop's folder, so that `cd` holds for what follows.
std::vector<StepOutcome> run_steps(const std::vector<ManualStep>& steps, const Workshop& workshop);

/// Fails where a step was not reached, or ended with more than 1: something may be held, as the text may want to show.
void check_steps(std::string_view name, const std::vector<ManualStep>& steps, const Workshop& workshop);

}  // namespace ordinatio
