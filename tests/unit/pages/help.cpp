// The help of every command, as the program shows it.
#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "base/base.h"
#include "command_line.h"
#include "help_page.h"
#include "words.h"

namespace ordinatio::help_test {
using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;
const fs::path project = PROJECT_FOLDER;

/// What a person reads: README, DEVELOPERS.md, a new workshop's README and the pages of the manual.
std::vector<fs::path> documents() {
  std::vector<fs::path> files{project / "README.md", project / "DEVELOPERS.md", project / "templates/README.txt"};
  for (const auto& entry : fs::directory_iterator(project / "src/manual")) {
    if (entry.path().extension() == ".md") files.push_back(entry.path());
  }
  return files;
}

/// "a \"b c\" d" → a, b c, d: as a shell parts it.
std::vector<std::string> words_of(const std::string& typed) {
  std::vector<std::string> words;
  bool quoted = false, begun = false;
  for (const char c : typed) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ' ' && !quoted) {
      begun = false;
    } else {
      if (!begun) words.emplace_back();
      begun = true;
      words.back() += c;
    }
  }
  return words;
}

const CommandWords* find_command(const ProgramWords& program, const std::string& name) {
  const auto found = std::ranges::find(program.commands, name, &CommandWords::name);
  return found == program.commands.end() ? nullptr : &*found;
}

const OptionWords* find_option(const CommandWords& command, const std::string& name) {
  const auto found = std::ranges::find_if(
      command.options, [&](const OptionWords& option) { return std::ranges::count(option.names, name) > 0; });
  return found == command.options.end() ? nullptr : &*found;
}

std::size_t columns_of(const std::string& line) {
  return static_cast<std::size_t>(
      std::ranges::count_if(line, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Whether the words are those of a command that exists, with options that it has and nothing that it asks for left out.
void check_typed(const ProgramWords& program, const std::string& typed) {
  INFO(typed);
  const auto words = words_of(typed);
  if (words.front() != program.name) return;  // cd
  REQUIRE(words.size() > 1);
  const CommandWords* command = find_command(program, words[1]);
  REQUIRE(command != nullptr);
  std::set<std::string> given;
  std::size_t places = 0;
  for (std::size_t at = 2; at < words.size(); ++at) {
    if (!words[at].starts_with("--")) {
      ++places;
      continue;
    }
    INFO(words[at]);
    const OptionWords* option = find_option(*command, words[at]);
    REQUIRE(option != nullptr);
    given.insert(words[at]);
    if (option->value.empty()) continue;
    REQUIRE(++at < words.size());
    if (!option->choices.empty()) CHECK(std::ranges::count(option->choices, words[at]) == 1);
  }
  for (const OptionWords& option : command->options) {
    if (option.is_required) CHECK(given.contains(option.names.back()));
  }
  const auto asked = std::ranges::count_if(command->places, &OptionWords::is_required);
  CHECK(places >= static_cast<std::size_t>(asked));
  if (command->places.empty()) CHECK(places == 0);
}

}  // namespace

TEST_CASE("every command's help is for a person: plain words, lines that fit, an example, exit codes") {
  const CommandLine line;
  const ProgramWords program = program_words(line.program());
  CHECK(program.commands.size() > 25);
  std::vector<std::string> pages{line.program().help()};
  for (const CLI::App* command : line.program().get_subcommands({})) pages.push_back(command->help());
  for (const std::string& page : pages) {
    INFO(page);
    CHECK(inner_word(page) == "");
    CHECK_THAT(page, Contains("\n  ordinatio ") && Contains("Exit codes: 0 done"));
    std::istringstream lines(page);
    for (std::string text; std::getline(lines, text);) {
      CHECK((columns_of(text) <= 80 || text.starts_with("  ordinatio ")));
      CHECK_FALSE(text.ends_with(' '));
    }
  }
}

TEST_CASE("every option says what it is for and what stands behind it, in words that the others use, too") {
  const std::set<std::string> values{"FILE", "FOLDER", "DATE",  "TIME",  "WORD",    "WORDS", "NUMBER", "MM",
                                     "X,Y",  "ITEM",   "ROW",   "SHEET", "POCKETS", "BLANK", "ORDER",  "DESIGN",
                                     "FACE", "SIZE",   "SHARE", "STATE", "SUBJECT", "PAGE"};
  const CommandLine line;
  for (const CommandWords& command : program_words(line.program()).commands) {
    for (const auto* options : {&command.places, &command.options}) {
      for (const OptionWords& option : *options) {
        INFO(command.name << ' ' << option.names.back());
        CHECK(option.about.size() > 2);
        CHECK_FALSE(option.about.ends_with('.'));
        const bool is_flag = option.value.empty() && option.names.back().starts_with("--");
        CHECK((is_flag || !option.choices.empty() || values.contains(option.value)));
      }
    }
  }
}

TEST_CASE("every command has an example of its own or two or three, and each of them can be typed") {
  const CommandLine line;
  const ProgramWords program = program_words(line.program());
  for (const CommandExample& example : program.examples) {
    if (!example.command.empty()) check_typed(program, example.command);
  }
  for (const CommandWords& command : program.commands) {
    INFO(command.name);
    CHECK(!command.examples.empty());
    CHECK(command.examples.size() <= 3);
    for (const CommandExample& example : command.examples) {
      CHECK((example.command + ' ').starts_with("ordinatio " + command.name + ' '));
      CHECK(!example.about.empty());
      check_typed(program, example.command);
    }
  }
}

TEST_CASE("every command that the documents show exists, with the options that they show") {
  const CommandLine line;
  const ProgramWords program = program_words(line.program());
  std::size_t count = 0;
  const std::regex shown("(?:^|`|\\n) *(?:[./a-z]*/)?ordinatio ([a-z]+(?:-[a-z]+)*)([^`\\n#]*)"), option("--[a-z-]+");
  for (const fs::path& document : documents()) {
    const std::string text = *read_file(document);
    for (std::sregex_iterator match(text.begin(), text.end(), shown), end; match != end; ++match, ++count) {
      INFO(document << ": " << match->str());
      const std::string rest = (*match)[2];
      const CommandWords* command = find_command(program, (*match)[1]);
      REQUIRE(command != nullptr);
      for (std::sregex_iterator name(rest.begin(), rest.end(), option); name != end; ++name) {
        INFO(name->str());
        CHECK(find_option(*command, name->str()) != nullptr);
      }
    }
  }
  CHECK(count > 60);
}

TEST_CASE("the items that the documents and the help name are ones that a new workshop has") {
  const std::string sample = *read_file(project / "templates/orders.csv");
  const CommandLine line;
  std::string all = line.program().help();
  for (const CLI::App* command : line.program().get_subcommands({})) all += command->help();
  for (const fs::path& document : documents()) all += *read_file(document);
  const std::regex date("[0-9]{4}-[0-9]{2}-[0-9]{2}"), item("\\b([0-9]{4})-[0-9]{1,2}\\b");
  const std::string text = std::regex_replace(all, date, "");
  std::size_t count = 0;
  for (std::sregex_iterator match(text.begin(), text.end(), item), end; match != end; ++match, ++count) {
    INFO(match->str());
    CHECK(sample.find("\n" + (*match)[1].str() + ",") != std::string::npos);
  }
  CHECK(count > 40);
}

}  // namespace ordinatio::help_test
