// A workshop small enough to be killed thousands of times, and the commands of its week.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"

namespace ordinatio::crash {

inline constexpr const char* ledger_name = "workshop.ledger";

/// What the pieces are: all alike, or each measured.
enum class Pieces { nominal, measured };
/// Writes its files into the folder: three pockets, two designs, the week's exports.
void make_workshop(const std::filesystem::path& folder, Pieces pieces);

/// One command, as it is typed once. Its time is its own, so that every run of it says the same.
struct Command {
  std::string name;  // of the command on the command line
  std::function<Result<Account>(const Shop& shop, const LedgerCall& call)> work;
  std::string now;
  bool draws = false;  // a PDF, which takes most of its time
};
/// The commands of a week, in their order; each finds what those before it have left.
std::vector<Command> week_of(Pieces pieces);

/// Reads the workshop of that folder, runs the command in it and acknowledges its account. `report`: called
/// before that, where the person would hear what was done.
Result<Account> run_command(const Command& command, const std::filesystem::path& folder,
                            const std::function<void()>& report = {});

}  // namespace ordinatio::crash
