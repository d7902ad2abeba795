#include "command_tree.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <sstream>

namespace ordinatio {
namespace {

// The option library keeps one text for the end of a command's help. In it a line with a tab is an example, one that
// begins with a tab a heading, any other a paragraph.
constexpr char example_mark = '\t';

void append_to_end(CLI::App& app, const std::string& line) { app.footer(app.get_footer() + line + '\n'); }

struct EndOfHelp {
  std::vector<CommandExample> examples;
  std::vector<std::string> closing;
};

EndOfHelp end_of_help(const CLI::App& app) {
  EndOfHelp end;
  std::istringstream lines(app.get_footer());
  for (std::string line; std::getline(lines, line);) {
    const std::size_t at = line.find(example_mark);
    if (at == std::string::npos) {
      end.closing.push_back(line);
    } else {
      end.examples.push_back({line.substr(0, at), line.substr(at + 1)});
    }
  }
  return end;
}

/// "R12|R2000" are choices; "FILE" is none.
std::vector<std::string> choices_of(const std::string& value) {
  std::vector<std::string> choices;
  if (value.find('|') == std::string::npos) return choices;
  std::istringstream words(value);
  for (std::string word; std::getline(words, word, '|');) choices.push_back(word);
  return choices;
}

std::vector<std::string> names_of(const CLI::Option& option) {
  if (option.get_positional()) return {option.get_name(true, false)};
  std::vector<std::string> names;
  for (const std::string& name : option.get_snames()) names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) names.push_back("--" + name);
  return names;
}

std::string not_with(const CLI::Option& option) {
  std::vector<std::string> names;
  for (const CLI::Option* other : option.get_excludes()) names.push_back(names_of(*other).back());
  std::ranges::sort(names);  // they come in the order of their addresses
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "; not with " : " or ") + name;
  return text;
}

template <class Take>
void for_each_option(const CLI::App& app, Take&& take) {
  for (const CLI::Option* option : app.get_options()) take(*option);
}

}  // namespace

OptionWords option_words(const CLI::Option& option) {
  OptionWords words;
  words.names = names_of(option);
  words.about = option.get_description() + not_with(option);
  words.is_required = option.get_required();
  words.may_repeat = option.get_expected_max() > 1;
  if (option.get_items_expected_max() > 0) words.value = option.get_type_name();
  words.choices = choices_of(words.value);
  return words;
}

CommandWords command_words(const CLI::App& command) {
  CommandWords words{command.get_name(), command.get_group(), command.get_description(), {}, {}, {}};
  for_each_option(command, [&](const CLI::Option& option) {
    (option.get_positional() ? words.places : words.options).push_back(option_words(option));
  });
  // What every command has stands last.
  std::stable_partition(words.options.begin(), words.options.end(),
                        [](const OptionWords& option) { return option.names.back() != "--help"; });
  words.examples = end_of_help(command).examples;
  return words;
}

ProgramWords program_words(const CLI::App& program) {
  EndOfHelp end = end_of_help(program);
  ProgramWords words{program.get_name(),      program.get_description(), {}, {},
                     std::move(end.examples), std::move(end.closing)};
  for_each_option(program, [&](const CLI::Option& option) { words.options.push_back(option_words(option)); });
  for (const CLI::App* command : program.get_subcommands({})) words.commands.push_back(command_words(*command));
  return words;
}

void show_examples(CLI::App& app, std::initializer_list<CommandExample> examples) {
  for (const CommandExample& example : examples) append_to_end(app, example.command + example_mark + example.about);
}

void show_closing(CLI::App& app, const std::string& paragraph) { append_to_end(app, paragraph); }

CLI::Option* choose_from(CLI::Option* option, const std::vector<std::string>& choices) {
  std::string value;
  for (const std::string& choice : choices) value += (value.empty() ? "" : "|") + choice;
  return option->type_name(value)->check(CLI::Validator(
      [choices](const std::string& word) {
        return std::ranges::find(choices, word) != choices.end() ? std::string() : "is none of these";
      },
      ""));
}

}  // namespace ordinatio
