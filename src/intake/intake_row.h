// A row of an export as the ledger knows lines by.
#pragma once

#include <functional>

#include "cleaning/cleaning.h"
#include "ledger/ledger.h"
#include "orders/orders.h"
#include "text/text.h"

namespace ordinatio::inline intake {

/// What makes two rows say the same: what would be engraved counts, never the bytes.
struct IntakeRules {
  CleaningRules cleaning{};
  std::string design{};  // the shop's: of rows that name none
  /// Whether an item that is made would come out the same to the last path with these words; empty: nobody can tell.
  std::function<bool(Ledger&, const LedgerItem&, const NewItem&)> comes_out_the_same{};
};
/// The words as they would be engraved, or, where they cannot be, as they came without the spaces around them.
std::string meaning_of(const std::string& words, const CleaningRules& rules);
bool says_the_same(const std::string& words, const std::string& other, const IntakeRules& rules);
bool is_same_design(const std::string& design, const std::string& other, const IntakeRules& rules);
/// The same wishes in any order.
bool is_same_wish(const std::string& wish, const std::string& other);

struct IntakeRow {
  Order order;
  bool has_id = false;
  std::string key;      // the export's id of the line, or a digest of product and words
  int occurrence = 1;   // among rows of the order that are alike, from 1
  std::string version;  // digest of all that the row says
  // The same of the bytes: ledgers of version 2 have these.
  std::string key_of_bytes, version_of_bytes;
};

/// The rows of an export, those of one order together, orders as they come first.
std::vector<std::vector<IntakeRow>> rows_by_order(const std::vector<Order>& orders, const IntakeRules& rules);

/// As a question keeps it: JSON.
std::string proposal_of(const IntakeRow& row);
IntakeRow row_proposed(const LedgerQuestion& question, const IntakeRules& rules);

/// The line of an order's source: "orders.csv:12" → 12.
int line_of(const std::string& source);

/// How many items it wants: none where it is cancelled.
int wanted_items(const IntakeRow& row);
/// The words of its item, counted from 0.
const std::string& words_of(const IntakeRow& row, std::size_t index);
/// What the row says of its item, counted from 0, that has this ordinal of the order.
NewItem item_of(const IntakeRow& row, std::size_t index, std::int64_t line, int ordinal);

}  // namespace ordinatio::inline intake
