// In: the words of the command line.
// Out: the command that they ask for, run, and its exit code; its help; a message where they are off.
// Never: does any of the work itself.
#pragma once

#include "ledger_commands.h"
#include "packing_commands.h"
#include "shop_commands.h"

namespace ordinatio {

class CommandLine {
 public:
  CommandLine();
  int run(int argc, char** argv);
  [[nodiscard]] const CLI::App& program() const { return app_; }

 private:
  CLI::App app_;
  Common common_;
  ShopCommands shop_;
  LedgerCommands ledger_;
  PackingCommands packing_;
  int code_ = done;
};

}  // namespace ordinatio
