// Run by the build: writes the manual pages and the completions of the program into a folder.
//
//   make_pages FOLDER DATE      FOLDER/man/ordinatio.1, ordinatio-day.1, …; FOLDER/completions/ordinatio.bash, …
#include <iostream>

#include "command_line.h"
#include "pages/pages.h"
#include "version.h"

namespace {

using namespace ordinatio;

MaybeFault write_pages(const std::filesystem::path& folder, const ProgramWords& program, const Edition& edition) {
  const auto man = folder / "man", completions = folder / "completions";
  for (const auto& made : {man, completions}) {
    if (auto fault = make_folder(made)) return fault;
  }
  if (auto fault = write_file(man / (program.name + ".1"), program_manual(program, edition))) return fault;
  for (const CommandWords& command : program.commands) {
    const auto page = man / (program.name + '-' + command.name + ".1");
    if (auto fault = write_file(page, command_manual(program, command, edition))) return fault;
  }
  if (auto fault = write_file(completions / (program.name + ".bash"), bash_completion(program))) return fault;
  if (auto fault = write_file(completions / ('_' + program.name), zsh_completion(program))) return fault;
  return write_file(completions / (program.name + ".fish"), fish_completion(program));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "make_pages: FOLDER and DATE are missing\n";
    return bad_input;
  }
  const CommandLine line;
  const auto fault = write_pages(argv[1], program_words(line.program()), {program_version(), argv[2]});
  return fault ? report_fault(*fault) : done;
}
