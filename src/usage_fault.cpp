#include "usage_fault.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "base/phrase.h"
#include "command_tree.h"
#include "help_page.h"

namespace ordinatio {
namespace {

/// The command that was begun, or the program where there is none.
const CLI::App& begun(const CLI::App& program) {
  const auto chosen = program.get_subcommands();
  return chosen.empty() ? program : *chosen.front();
}

std::string place_of(const CLI::App& program) {
  const CLI::App& app = begun(program);
  return &app == &program ? "" : app.get_name();
}

std::string see_help(const CLI::App& program) {
  const std::string place = place_of(program);
  return "See " + program.get_name() + (place.empty() ? "" : " " + place) + " --help";
}

/// The first example of the command that has the word in it, else its first.
std::string for_example(const CommandWords& command, const std::string& word) {
  for (const CommandExample& example : command.examples) {
    if (example.command.find(word) != std::string::npos) return "For example: " + example.command;
  }
  return command.examples.empty() ? "" : "For example: " + command.examples.front().command;
}

std::vector<std::string> command_names(const ProgramWords& program) {
  std::vector<std::string> names;
  for (const CommandWords& command : program.commands) names.push_back(command.name);
  return names;
}

std::optional<std::string> nearest_of(std::string_view word, const std::vector<std::string>& known) {
  return nearest_word(word, std::vector<std::string_view>(known.begin(), known.end()));
}

Fault no_command(const CLI::App& program, const std::string& word) {
  const auto nearest = nearest_of(word, command_names(program_words(program)));
  return {"no command is called " + in_quotes(word), "", "",
          (nearest ? "The nearest is " + in_quotes(*nearest) + ". " : "") + "See " + program.get_name() + " --help"};
}

bool has_option(const std::vector<OptionWords>& options, const std::string& name) {
  return std::ranges::any_of(options,
                             [&](const OptionWords& option) { return std::ranges::count(option.names, name) > 0; });
}

/// The commands that have the option: "day or proof"; of many the first three.
std::string owners_of(const ProgramWords& program, const std::string& name) {
  constexpr std::size_t most = 3;  // a longer list is read by nobody
  std::vector<std::string> owners;
  for (const CommandWords& command : program.commands) {
    if (has_option(command.options, name)) owners.push_back(command.name);
  }
  if (owners.size() > most) {
    owners.resize(most);
    owners.emplace_back("others");
  }
  return one_of(owners);
}

/// Without what parts it from a word, which would make short options near to one another.
std::string bare(const std::string& option) {
  const std::size_t at = option.find_first_not_of('-');
  return at == std::string::npos ? "" : option.substr(at);
}

std::string nearest_option(const std::vector<OptionWords>& options, const std::string& name) {
  std::vector<std::string> known;
  known.reserve(options.size());
  for (const OptionWords& option : options) known.push_back(bare(option.names.back()));
  const auto nearest = nearest_of(bare(name), known);
  return nearest ? "The nearest is \"--" + *nearest + "\". " : "";
}

/// Of the program, in front of any command.
Fault no_option_before(const CLI::App& program, const std::string& name) {
  const ProgramWords words = program_words(program);
  const std::string owners = owners_of(words, name);
  if (owners.empty()) {
    return {"no option is called " + in_quotes(name), "", "",
            nearest_option(words.options, name) + "See " + program.get_name() + " --help"};
  }
  return {in_quotes(name) + " stands before the command", "", "", "Put it behind: it is an option of " + owners};
}

Fault no_option(const CLI::App& program, const std::string& name) {
  const std::string owners = owners_of(program_words(program), name);
  return {"no option is called " + in_quotes(name), place_of(program), "",
          nearest_option(command_words(begun(program)).options, name) +
              (owners.empty() ? "" : in_quotes(name) + " is an option of " + owners + ". ") + see_help(program)};
}

/// The first that looks like an option, less the value behind its equals sign; empty: none.
std::string option_among(const std::vector<std::string>& words) {
  const auto option =
      std::ranges::find_if(words, [](const std::string& word) { return word.size() > 1 && word[0] == '-'; });
  return option == words.end() ? "" : option->substr(0, option->find('='));
}

/// words: those that nothing takes; before: of these, the ones in front of a command.
Fault left_over(const CLI::App& program, const std::vector<std::string>& before,
                const std::vector<std::string>& words) {
  if (!before.empty()) {
    // What stands first was meant for a command, unless it looks like an option: all behind it was that command's.
    if (!before.front().starts_with('-')) return no_command(program, before.front());
    return no_option_before(program, option_among(before));
  }
  if (const std::string option = option_among(words); !option.empty()) return no_option(program, option);
  return {in_quotes(words.front()) + " is one word too many", place_of(program), "",
          "Put words that belong together between quotes. " + see_help(program)};
}

Fault missing(const CLI::App& program, const OptionWords& option) {
  const std::string& name = option.names.back();
  return {heading_of(option) + " is missing", place_of(program), option.about,
          for_example(command_words(begun(program)), name.front() == '-' ? name : "")};
}

/// What a value has to be, by the word that stands for it in the help.
std::string wanted(const OptionWords& option) {
  if (!option.choices.empty()) return one_of(option.choices);
  if (option.value == "MM") return "a number of millimetres";
  if (option.value == "N" || option.value == "NUMBER") return "a whole number";
  if (option.value == "SHARE") return "a share, such as 0.05";
  return option.value;
}

/// The value was there and is none that the option takes.
Fault wrong_value(const CLI::App& program, const CLI::Option& option, const std::string& message) {
  const OptionWords words = option_words(option);
  const std::string given = option.results().empty() ? "" : option.results().front();
  const std::string prefix = option.get_name() + ": ";  // how the option library puts it before a check's own words
  Fault fault{words.names.back() + " takes " + wanted(words) + ", not " + in_quotes(given), place_of(program), "",
              see_help(program)};
  if (words.value.empty()) {
    fault.what = words.names.back() + " stands alone: it takes no value, such as " + in_quotes(given);
  } else if (!words.choices.empty()) {
    const auto nearest = nearest_of(given, words.choices);
    if (nearest) fault.mend = "The nearest is " + in_quotes(*nearest);
  } else if (message.starts_with(prefix)) {
    fault.what = words.names.back() + ": " + in_quotes(given) + ' ' + message.substr(prefix.size());
  }
  return fault;
}

/// Too few values behind the option, or too many.
Fault wrong_count(const CLI::App& program, const CLI::Option& option) {
  const OptionWords words = option_words(option);
  const std::string& name = words.names.back();
  const std::size_t count = option.results().size();
  const auto least = static_cast<std::size_t>(option.get_items_expected_min());
  const auto most = static_cast<std::size_t>(option.get_items_expected_max());
  Fault fault{"", place_of(program), "", for_example(command_words(begun(program)), name)};
  if (count == 0) {
    fault.what = "behind " + name + ' ' + words.value + " is missing";
    fault.why = words.about;
  } else if (most == 1) {
    fault.what = name + " is given " + std::to_string(count) + " times";
    fault.mend = "Give it once";
  } else {
    fault.what = name + " takes " + std::to_string(least) + " to " + std::to_string(most) + ' ' + words.value +
                 ", not " + std::to_string(count);
  }
  return fault;
}

bool is_part(char c) { return c == '-' || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

/// Where the whole name stands in the message, or npos.
std::size_t place_in(const std::string& message, const std::string& name) {
  for (std::size_t at = message.find(name); at != std::string::npos; at = message.find(name, at + 1)) {
    const std::size_t end = at + name.size();
    if ((at == 0 || !is_part(message[at - 1])) && (end == message.size() || !is_part(message[end]))) return at;
  }
  return std::string::npos;
}

/// The options that the option library's message names, in its order: it says in no other way which they are.
std::vector<const CLI::Option*> named_in(const CLI::App& app, const std::string& message) {
  std::vector<std::pair<std::size_t, const CLI::Option*>> found;
  for (const CLI::Option* option : app.get_options()) {
    const std::size_t at = place_in(message, option->get_name());
    if (at != std::string::npos) found.emplace_back(at, option);
  }
  std::ranges::sort(found);
  std::vector<const CLI::Option*> options;
  options.reserve(found.size());
  for (const auto& [at, option] : found) options.push_back(option);
  return options;
}

Fault missing_of(const CLI::App& program, const std::string& message, const std::vector<const CLI::Option*>& named) {
  if (&begun(program) == &program) {
    return {"no command is given", "", "", "For example: ordinatio new my-workshop. " + see_help(program)};
  }
  if (named.size() == 1) return missing(program, option_words(*named.front()));
  const std::string names = message.substr(0, message.find(" is required"));  // "ITEM or --order"
  return {names + " is missing", place_of(program), "", for_example(command_words(begun(program)), "")};
}

}  // namespace

Fault usage_fault(const CLI::App& program, const CLI::ParseError& error) {
  const auto words = program.remaining(true);
  if (!words.empty()) return left_over(program, program.remaining(), words);
  const std::string message = error.what();
  const auto named = named_in(begun(program), message);
  const std::string kind = error.get_name();
  if (kind == "RequiredError") return missing_of(program, message, named);
  if (kind == "ExcludesError" && named.size() > 1) {
    return {
        option_words(*named[0]).names.back() + " and " + option_words(*named[1]).names.back() + " do not go together",
        place_of(program), "", "Leave one of them out"};
  }
  if (!named.empty()) {
    return kind == "ArgumentMismatch" ? wrong_count(program, *named.front())
                                      : wrong_value(program, *named.front(), message);
  }
  return {"the command line cannot be read", place_of(program), message, see_help(program)};
}

}  // namespace ordinatio
