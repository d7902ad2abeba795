#pragma once

#include "base/account.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct RemakeOptions {
  std::string item;
  std::filesystem::path manifest, out;
  std::optional<int> pocket;
  std::optional<std::string> text;  // absent: exactly as it was
  /// A piece laid by hand: "x,y" of its lower left, lower right and, if there are four, upper right, upper left corner.
  std::vector<std::string> corners = {};
  double limit = 1;  // mm, of what is left at a corner: reclaimed pieces differ by some tenths from their drawing
  // With a ledger no manifest need be named.
  LedgerCall call{};
  std::string blank{};   // the piece to make it on; empty: the first free one that takes it as it was
  std::string reason{};  // why it is made again
  bool later = false;    // it is not made now, but first in line on the next day's sheets
};
Result<Account> run_remake(const Shop& shop, const RemakeOptions& options);

}  // namespace ordinatio::inline shop
