// The command line: one small function a command. Data on stdout, messages on stderr; exit codes 0 done, 1 done but
// something is held or warned of, 2 usage or bad input and nothing changed, 3 failed.
#include <iostream>

#include "base/harmless.h"
#include "command_line.h"
#include "printing.h"

int main(int argc, char** argv) {
  using namespace ordinatio;
  make_streams_safe();
  try {
    return CommandLine().run(argc, argv);
  } catch (const std::exception& bug) {
    std::cerr << "ordinatio: stopped: " << harmless(bug.what())
              << ". This is a mistake of the program or a failing machine; what was there before is unchanged.\n";
    return failed;
  }
}
