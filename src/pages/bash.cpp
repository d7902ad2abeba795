// Bash Reference Manual, Programmable Completion: a function is called with the words in COMP_WORDS and answers in COMPREPLY.
#include "pages/pages.h"

namespace ordinatio::inline pages {
namespace {

std::string offer_call(const OptionWords& option) {
  switch (offered_for(option)) {
    case OfferedValue::words:
      return "_ordinatio_words " + single_quoted(joined(option.choices, " "));
    case OfferedValue::file:
      return "_ordinatio_files -f";
    case OfferedValue::folder:
      return "_ordinatio_files -d";
    case OfferedValue::nothing:
      return ":";
  }
  return ":";
}

std::string all_names(const std::vector<OptionWords>& options) {
  std::vector<std::string> names;
  for (const OptionWords& option : options) names.insert(names.end(), option.names.begin(), option.names.end());
  return joined(names, " ");
}

/// What stands behind an option of the command: "day --dxf") …
std::string value_cases(const CommandWords& command) {
  std::string cases;
  for (const OptionWords& option : command.options) {
    if (option.value.empty()) continue;
    std::vector<std::string> patterns;
    for (const std::string& name : option.names) patterns.push_back(single_quoted(command.name + ' ' + name));
    cases += "    " + joined(patterns, "|") + ") " + offer_call(option) + "; return ;;\n";
  }
  return cases;
}

std::string command_case(const CommandWords& command) {
  std::string text = "    " + command.name + ")\n      if [[ $word == -* ]]; then\n        _ordinatio_words " +
                     single_quoted(all_names(command.options)) + "\n      else\n        :\n";
  for (const OptionWords& place : command.places) text += "        " + offer_call(place) + '\n';
  return text + "      fi ;;\n";
}

constexpr const char* functions = R"bash(
_ordinatio_words() {
  local offered
  while IFS='' read -r offered; do COMPREPLY+=("$offered"); done < <(compgen -W "$1" -- "$word")
}

_ordinatio_files() {
  local offered
  compopt -o filenames 2>/dev/null
  while IFS='' read -r offered; do COMPREPLY+=("$offered"); done < <(compgen "$1" -- "$word")
}

_ordinatio() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
  COMPREPLY=()
)bash";

}  // namespace

std::string bash_completion(const ProgramWords& program) {
  std::vector<std::string> names;
  std::string values, commands;
  for (const CommandWords& command : program.commands) {
    names.push_back(command.name);
    values += value_cases(command);
    commands += command_case(command);
  }
  return "# Completions of " + program.name + " for bash, made from its own help.\n" + functions +
         "  if ((COMP_CWORD == 1)); then\n    _ordinatio_words " +
         single_quoted(joined(names, " ") + ' ' + all_names(program.options)) +
         "\n    return\n  fi\n  case \"$command $before\" in\n" + values + "  esac\n  case $command in\n" + commands +
         "  esac\n}\n\ncomplete -F _ordinatio " + program.name + '\n';
}

}  // namespace ordinatio::inline pages
