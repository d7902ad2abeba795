// What is made of a command's words for man and for shells.
#include <catch2/catch.hpp>

#include "command_line.h"
#include "pages/pages.h"

namespace ordinatio::manual_test {
using Catch::Matchers::Contains;

namespace {

const Edition edition{"0.0.0", "2026-11-27"};

/// A command whose words hold what steers groff and shells.
ProgramWords awkward() {
  ProgramWords program{"ordinatio", "About", {}, {}, {}, {}};
  CommandWords command{"try", "Parts", "Try 'it' \\ \"so\" – -1", {}, {}, {{"ordinatio try a\\nb", "it's --so"}}};
  command.options.push_back({{"--odd"}, "FILE", {}, ".json [a:b] isn't $HOME `x`", false, false});
  command.options.push_back({{"--kind"}, "a|b", {"a", "b"}, "one", false, false});
  command.places.push_back({{"WHERE"}, "FOLDER", {}, "a folder", true, false});
  program.commands.push_back(command);
  return program;
}

}  // namespace

TEST_CASE("a manual page holds ASCII alone, and no line of it is a request by accident") {
  const ProgramWords program = awkward();
  const std::string page = command_manual(program, program.commands.front(), edition);
  INFO(page);
  CHECK(std::ranges::all_of(page, [](char c) { return c == '\n' || (c >= ' ' && c < 0x7F); }));
  CHECK_THAT(page, Contains("try \\(aqit\\(aq \\e \\(dqso\\(dq \\[u2013] -1"));
  CHECK_THAT(page, Contains("\n\\&.json [a:b] isn\\(aqt $HOME `x`.\n"));
  CHECK_THAT(page, Contains("\\fBordinatio try a\\enb\\fR\nit\\(aqs \\-\\-so.\n"));
  CHECK_THAT(page, Contains("\\fB\\-\\-kind\\fR a or b\n"));
}

TEST_CASE("a manual page has its sections in their order, and lines that are not too long but for the typed") {
  const CommandLine line;
  const ProgramWords program = program_words(line.program());
  for (const CommandWords& command : program.commands) {
    const std::string page = command_manual(program, command, edition);
    std::size_t at = 0;
    for (const char* section : {"NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXAMPLES", "EXIT STATUS", "SEE ALSO"}) {
      INFO(command.name << ' ' << section);
      at = page.find(std::string("\n.SH ") + section + '\n', at);
      REQUIRE(at != std::string::npos);
    }
  }
}

TEST_CASE("completions quote what steers their shell") {
  const ProgramWords program = awkward();
  CHECK_THAT(zsh_completion(program), Contains(R"('--odd[.json \[a\:b\] isn'\''t $HOME `x`]:FILE:_files')") &&
                                          Contains(R"('--kind[one]:one:(a b)')") && Contains("':WHERE:_files -/'"));
  CHECK_THAT(fish_completion(program), Contains(R"(-l odd -r -F -d '.json [a:b] isn\'t $HOME `x`')") &&
                                           Contains(R"(-l kind -x -a 'a b' -d 'one')"));
  CHECK_THAT(bash_completion(program), Contains("'try --odd') _ordinatio_files -f; return ;;") &&
                                           Contains("'try --kind') _ordinatio_words 'a b'; return ;;"));
}

}  // namespace ordinatio::manual_test
