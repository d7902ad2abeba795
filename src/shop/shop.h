// In: a workshop's folder (shop.toml, designs, fonts) and its orders.
// Out: the work of each command, in a header of its name beside this one: sheets, proofs, remakes, stands; its account.
// Never: prints, parses the command line, or loses an order without saying so.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/account.h"
#include "bed/bed.h"
#include "orders/orders.h"
#include "write/write.h"

namespace ordinatio {

/// The measured pieces, and how they are used up.
struct BlankUse {
  std::string file;  // beside shop.toml; empty: every piece is taken for the nominal one
  /// Which pieces are saved for later where there are more than items: the fullest, or none, so that lettering is as
  /// large as it can be today.
  enum class Spare { fullest, none } spare = Spare::fullest;
};

struct Shop {
  std::filesystem::path folder;
  std::string name;
  OrderFormat orders;
  BlankUse blanks;
  std::string ledger;  // the ledger's file, beside shop.toml; empty: the workshop keeps none
  std::string default_design, stand_design;
  std::string sample = "Mill & Quay 1874";  // the words of specimens
  std::string language;                     // for Han forms and dates where the design names none
  BedPlan plan;                             // its jig is the plain one
  /// More boards, [jig.NAME], in the file's order. Which of all holds a piece: the one that the design names, else the
  /// first whose pockets take it, the plain one before the others.
  std::vector<Jig> named_jigs;
  bool has_plain_jig = true;  // false where only named ones stand in the file
  DxfOptions dxf;
  SvgOptions svg;
};
/// Reads shop.toml; designs are read when they are asked for.
Result<Shop> read_shop(const std::filesystem::path& folder);
/// Makes a workshop folder that works as it is. Faults: it exists and is not empty.
MaybeFault new_shop(const std::filesystem::path& folder);

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

}  // namespace ordinatio
