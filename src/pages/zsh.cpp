// zshcompsys(1): _describe lists commands, _arguments options and words by their place.
#include "pages/pages.h"

namespace ordinatio::inline pages {
namespace {

/// In an option's [explanation] and before a colon these steer.
std::string plain_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string value_part(const OptionWords& option, const std::string& name) {
  std::string head = ':' + plain_text(name) + ':';
  switch (offered_for(option)) {
    case OfferedValue::words:
      return head + '(' + joined(option.choices, " ") + ')';
    case OfferedValue::file:
      return head + "_files";
    case OfferedValue::folder:
      return head + "_files -/";
    case OfferedValue::nothing:
      return head + ' ';
  }
  return head;
}

std::string option_line(const OptionWords& option) {
  const std::string about = '[' + plain_text(option.about) + ']';
  const std::string value =
      option.value.empty() ? "" : value_part(option, option.choices.empty() ? option.value : "one");
  if (option.names.size() > 1) {
    return single_quoted('(' + joined(option.names, " ") + ')') + '{' + joined(option.names, ",") + '}' +
           single_quoted(about + value);
  }
  return single_quoted((option.may_repeat ? "*" : "") + option.names.front() + about + value);
}

std::string place_line(const OptionWords& place) {
  return single_quoted((place.may_repeat ? "*" : "") + value_part(place, place.names.front()));
}

std::string zsh_case(const CommandWords& command) {
  std::string text = "        (" + command.name + ")\n          _arguments";
  for (const OptionWords& option : command.options) text += " \\\n            " + option_line(option);
  for (const OptionWords& place : command.places) text += " \\\n            " + place_line(place);
  return text + " ;;\n";
}

}  // namespace

std::string zsh_completion(const ProgramWords& program) {
  std::string text = "#compdef " + program.name + "\n# Completions of " + program.name +
                     ", made from its own help.\n\n_" + program.name +
                     "() {\n  local curcontext=$curcontext state line\n  local -a commands\n  _arguments -C";
  for (const OptionWords& option : program.options) text += " \\\n    " + option_line(option);
  text += " \\\n    '1: :->command' \\\n    '*:: :->rest'\n  case $state in\n    (command)\n      commands=(\n";
  for (const CommandWords& command : program.commands) {
    text += "        " + single_quoted(command.name + ':' + command.about) + '\n';
  }
  text += "      )\n      _describe -t commands command commands ;;\n    (rest)\n      case $words[1] in\n";
  for (const CommandWords& command : program.commands) text += zsh_case(command);
  return text + "      esac ;;\n  esac\n}\n\n_" + program.name + " \"$@\"\n";
}

}  // namespace ordinatio::inline pages
