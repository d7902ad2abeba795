// fish's documentation of its command `complete`: -n a condition, -l a long option, -x a value that is no file, -F files.
#include "pages/pages.h"

namespace ordinatio::inline pages {
namespace {

/// fish knows \' and \\ between single quotes, and no other way to put a quote there.
std::string fish_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + '\'';
}

std::string value_flags(const OptionWords& option) {
  switch (offered_for(option)) {
    case OfferedValue::words:
      return " -x -a " + fish_quoted(joined(option.choices, " "));
    case OfferedValue::file:
      return " -r -F";
    case OfferedValue::folder:
      return " -x -a '(__fish_complete_directories)'";
    case OfferedValue::nothing:
      return " -x";
  }
  return "";
}

std::string option_line(const std::string& begin, const OptionWords& option) {
  std::string line = begin;
  for (const std::string& name : option.names)
    line += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  if (!option.value.empty()) line += value_flags(option);
  return line + " -d " + fish_quoted(option.about) + '\n';
}

std::string place_line(const std::string& begin, const OptionWords& place) {
  switch (offered_for(place)) {
    case OfferedValue::words:
      return begin + " -a " + fish_quoted(joined(place.choices, " ")) + '\n';
    case OfferedValue::file:
      return begin + " -F\n";
    case OfferedValue::folder:
      return begin + " -a '(__fish_complete_directories)'\n";
    case OfferedValue::nothing:
      return "";
  }
  return "";
}

}  // namespace

std::string fish_completion(const ProgramWords& program) {
  const std::string begin = "complete -c " + program.name;
  std::string text = "# Completions of " + program.name + " for fish, made from its own help.\n" + begin + " -f\n";
  for (const OptionWords& option : program.options) text += option_line(begin + " -n __fish_use_subcommand", option);
  for (const CommandWords& command : program.commands) {
    text += begin + " -n __fish_use_subcommand -a " + command.name + " -d " + fish_quoted(command.about) + '\n';
  }
  for (const CommandWords& command : program.commands) {
    const std::string within = begin + " -n '__fish_seen_subcommand_from " + command.name + '\'';
    for (const OptionWords& option : command.options) text += option_line(within, option);
    for (const OptionWords& place : command.places) text += place_line(within, place);
  }
  return text;
}

}  // namespace ordinatio::inline pages
