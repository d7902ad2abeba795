// In: the program's commands and options as plain words.
// Out: its manual pages and its completions for shells, as text.
// Never: is part of the program: the build makes what it writes.
#pragma once

#include <string>

#include "command_tree.h"

namespace ordinatio::inline pages {

/// What a manual page says of the version: "0.1.0", and its day as "2026-11-27".
struct Edition {
  std::string version, date;
};

// ---- manual.cpp ----
/// In groff's man macros, ASCII alone (groff_man(7), groff_char(7)).
std::string program_manual(const ProgramWords& program, const Edition& edition);
std::string command_manual(const ProgramWords& program, const CommandWords& command, const Edition& edition);

// ---- bash.cpp ----
std::string bash_completion(const ProgramWords& program);

// ---- zsh.cpp ----
std::string zsh_completion(const ProgramWords& program);

// ---- fish.cpp ----
std::string fish_completion(const ProgramWords& program);

/// What a shell may offer for a value.
enum class OfferedValue { nothing, words, file, folder };

// ---- offers.cpp ----
OfferedValue offered_for(const OptionWords& option);
/// In a shell's single quotes (POSIX.1-2017, Shell Command Language 2.2.2).
std::string single_quoted(const std::string& text);
std::string joined(const std::vector<std::string>& words, const std::string& between);

}  // namespace ordinatio::inline pages
