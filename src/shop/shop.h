// In: a workshop's folder (shop.toml, designs, fonts) and its orders.
// Out: the work of each command, in a header of its name beside this one: sheets, proofs, remakes, stands; its account.
// Never: prints, parses the command line, or loses an order without saying so.
#pragma once

#include <functional>
#include <string>

#include "base/account.h"
#include "workshop/workshop.h"

namespace ordinatio::inline shop {

/// When and why a command writes into the ledger.
struct LedgerCall {
  std::string now;              // ISO 8601, UTC: "2026-11-25T08:00:00Z"
  std::string cause;            // the command as it was typed
  bool clock_is_right = false;  // although the ledger knows a later time
  double wait = 5;              // seconds, for another command to end
  std::string vfs;              // SQLite's file system; empty: the usual one
  /// Asks the person before an item is acted on whose number came without its check character; empty: nobody is there.
  std::function<bool(const std::string& question)> confirm;
  bool samples = false;  // take the invented orders of a new workshop in, to practise
  /// The account has a way to go before a person has it, and may be lost on it: the ledger keeps it until `acknowledge`.
  bool to_be_heard = false;
};

}  // namespace ordinatio::inline shop
