// In: the commands and options as the command line reads them.
// Out: the same as plain words, of which the help, the manual pages and the completions are made.
// Never: knows what a command does.
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace ordinatio {

/// A command as one types it, and what it is for. Without a command `about` is a heading of those that follow.
struct CommandExample {
  std::string command, about;
};

/// An option, or a word that is known by its place.
struct OptionWords {
  std::vector<std::string> names;    // "-h", "--help"; or "ITEM" alone, for a word that is known by its place
  std::string value;                 // what stands behind it: "FILE", "MM"; empty: nothing
  std::vector<std::string> choices;  // where it is one of these
  std::string about;
  bool is_required = false;
  bool may_repeat = false;
};

struct CommandWords {
  std::string name, group, about;
  std::vector<OptionWords> places, options;
  std::vector<CommandExample> examples;
};

struct ProgramWords {
  std::string name, about;
  std::vector<OptionWords> options;
  std::vector<CommandWords> commands;
  std::vector<CommandExample> examples;
  std::vector<std::string> closing;  // paragraphs
};

ProgramWords program_words(const CLI::App& program);
CommandWords command_words(const CLI::App& command);
OptionWords option_words(const CLI::Option& option);

/// Appends to what a command's help shows at its end.
void show_examples(CLI::App& app, std::initializer_list<CommandExample> examples);
void show_closing(CLI::App& app, const std::string& paragraph);
/// The option's value is one of these words; another one is refused.
CLI::Option* choose_from(CLI::Option* option, const std::vector<std::string>& choices);

// The parts of the help in which commands stand.
inline constexpr const char* desk_commands = "In the browser";
inline constexpr const char* sheet_commands = "Orders to sheets";
inline constexpr const char* piece_commands = "Pieces, boards and faces";
inline constexpr const char* ledger_commands = "With a ledger";
inline constexpr const char* manual_commands = "To read more";

/// In every help and on every manual page.
inline constexpr const char* exit_codes =
    "0 done; 1 done, but something is held or worth a look; 2 bad input, nothing changed; 3 failed.";

}  // namespace ordinatio
