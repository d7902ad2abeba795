// What a person is told whose command line is off.
#include <catch2/catch.hpp>
#include <iostream>
#include <sstream>

#include "command_line.h"
#include "command_tree.h"
#include "words.h"

namespace ordinatio::usage_test {
using Catch::Matchers::Contains;

namespace {

struct Told {
  int code = -1;
  std::string message;
};

/// What the program says of the words; they are off, so that nothing is run.
Told told_of(std::vector<std::string> words) {
  words.insert(words.begin(), "ordinatio");
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  std::ostringstream message;
  std::streambuf* terminal = std::cerr.rdbuf(message.rdbuf());
  const int code = CommandLine().run(static_cast<int>(argv.size()), argv.data());
  std::cerr.rdbuf(terminal);
  return {code, message.str()};
}

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

struct OffLine {
  const char* typed;
  const char* message;  // what of it must be told
};

constexpr OffLine off_lines[] = {
    {"", "no command is given. For example: ordinatio new my-workshop. See ordinatio --help."},
    {"cancle 1002-2 --reason late",
     "no command is called \"cancle\". The nearest is \"cancel\". See ordinatio --help."},
    {"dya orders.csv", "no command is called \"dya\". The nearest is \"day\". See ordinatio --help."},
    {"xylophone", "no command is called \"xylophone\". See ordinatio --help."},
    {"--versoin", "no option is called \"--versoin\". The nearest is \"--version\"."},
    {"--shop x day",
     "\"--shop\" stands before the command. Put it behind: it is an option of day, proof, remake or others."},
    {"dya day", "no command is called \"dya\""},
    {"day --blank=x.csv",
     "day: no option is called \"--blank\". The nearest is \"--blanks\". \"--blank\" is an option of remake, "},
    {"day --item 3",
     "day: no option is called \"--item\". \"--item\" is an option of proof. See ordinatio day --help."},
    {"day --xyzzy", "day: no option is called \"--xyzzy\". See ordinatio day --help."},
    {"new a b", "new: \"b\" is one word too many. Put words that belong together between quotes."},
    {"remake", "remake: ITEM is missing: the item, such as 1002-2"},
    {"stands --count 3",
     "stands: --date DATE is missing: the day to engrave, such as 2026-11-25. For example: ordinatio stands"},
    {"stands --date", "stands: behind --date DATE is missing: the day to engrave"},
    {"stands --date 2026-11-25 --count few",
     "stands: --count takes a whole number, not \"few\". See ordinatio stands --help."},
    {"remake 1 --pocket 99999999999999999999", "--pocket takes a whole number, not \"99999999999999999999\""},
    {"remake 1 --limit wide", "--limit takes a number of millimetres, not \"wide\""},
    {"remake 1 --corners 1,1", "--corners takes 2 to 4 X,Y, not 1. For example: ordinatio remake 1001-1"},
    {"panes --breakage few", "--breakage takes a share, such as 0.05, not \"few\""},
    {"day --dxf R13", "day: --dxf takes R12 or R2000, not \"R13\". The nearest is \"R12\"."},
    {"day --date 2026-11-25 --date 2026-11-26", "day: --date is given 2 times. Give it once."},
    {"answer three take", "answer: NUMBER takes a whole number, not \"three\""},
    {"answer 3 teak", "answer: ANSWER takes take, keep or new, not \"teak\". The nearest is \"take\"."},
    {"specimen --font serif --designs", "specimen: --font and --designs do not go together. Leave one of them out."},
    {"spoil 1 --blank S-1 --reason x", "spoil: ITEM and --blank do not go together."},
    {"spoil --reason x", "spoil: ITEM or --blank is missing. For example: ordinatio spoil 1002-2"},
    {"packed", "packed: ITEM or --order is missing. For example: ordinatio packed 1002-1 1002-2."},
};

}  // namespace

TEST_CASE("a command line that is off is told what is off, the nearest word, and the mend") {
  for (const OffLine& off : off_lines) {
    const Told told = told_of(words_of(off.typed));
    INFO(off.typed << '\n' << told.message);
    CHECK(told.code == bad_input);
    CHECK_THAT(told.message, Contains(off.message));
    CHECK(inner_word(told.message) == "");
  }
}

TEST_CASE("a channel that would steer a terminal is told with its words") {
  const Told told = told_of({"day", "--channel", "a\nb"});
  CHECK(told.code == bad_input);
  CHECK_THAT(told.message, Contains("day: --channel: ") && Contains("holds a line end or a control character"));
  CHECK(inner_word(told.message) == "");
}

TEST_CASE("whatever is wrong with an option of any command, its message has no inner word of the option library") {
  const CommandLine line;
  for (const CommandWords& command : program_words(line.program()).commands) {
    std::vector<std::vector<std::string>> tries{{command.name, "--no-such-option"}};
    for (const OptionWords& place : command.places) {
      if (place.is_required) tries.push_back({command.name});
    }
    for (const OptionWords& option : command.options) {
      if (option.value.empty()) continue;
      tries.push_back({command.name, option.names.back()});
      if (!option.may_repeat) tries.push_back({command.name, option.names.back(), "1", option.names.back(), "2"});
      if (!option.choices.empty()) tries.push_back({command.name, option.names.back(), "no-such-word"});
      for (const char* number : {"NUMBER", "MM", "SHARE"}) {
        if (option.value == number) tries.push_back({command.name, option.names.back(), "no-number"});
      }
    }
    for (const auto& words : tries) {
      const Told told = told_of(words);
      INFO(command.name << ' ' << (words.size() > 1 ? words[1] : "") << '\n' << told.message);
      CHECK(told.code == bad_input);
      CHECK(inner_word(told.message) == "");
      CHECK_THAT(told.message,
                 Contains("ordinatio " + command.name) || Contains("Give it once") || Contains("The nearest is"));
    }
  }
}

}  // namespace ordinatio::usage_test
