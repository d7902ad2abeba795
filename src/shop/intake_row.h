// A row of an export as the ledger knows lines by. Of this folder alone.
#pragma once

#include "ledger/ledger.h"
#include "shop/shop.h"

namespace ordinatio {

struct IntakeRow {
  Order order;
  bool has_id = false;
  std::string key;      // the export's id of the line, or a digest of product and words
  int occurrence = 1;   // among rows of the order that are alike, from 1
  std::string version;  // digest of all that the row says
};

/// The rows of an export, those of one order together, orders as they come first.
std::vector<std::vector<IntakeRow>> rows_by_order(const std::vector<Order>& orders);

/// As a question keeps it: JSON.
std::string proposal_of(const IntakeRow& row);
IntakeRow row_proposed(const LedgerQuestion& question);

/// How many items it wants: none where it is cancelled.
int wanted_items(const IntakeRow& row);
/// The words of its item, counted from 0.
const std::string& words_of(const IntakeRow& row, std::size_t index);
/// What the row says of its item, counted from 0, that has this ordinal of the order.
NewItem item_of(const IntakeRow& row, std::size_t index, std::int64_t line, int ordinal);

}  // namespace ordinatio
