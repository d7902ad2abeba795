#pragma once

#include "base/account.h"
#include "paper/paper.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

struct PackingOptions {
  LedgerCall call{};
  std::vector<std::string> orders;  // empty: all that have a piece engraved and not packed yet
  PaperSize paper = PaperSize::a4;
  std::filesystem::path out;
};
/// What goes into each order's parcel, from the ledger, which it only reads. Faults: no ledger, no such order.
Result<Account> run_packing(const Shop& shop, const PackingOptions& options);

struct LabelOptions {
  LedgerCall call{};
  std::vector<std::string> items;  // as typed; empty: all that are engraved and not packed yet
  int first = 1;                   // the label of the first sheet to begin with
  std::filesystem::path out;
};
/// A label for each item, with a code of its number. Faults: no ledger, no such item, labels too small.
Result<Account> run_labels(const Shop& shop, const LabelOptions& options);

}  // namespace ordinatio::inline shop
