// In: the rows of an export, and the ledger.
// Out: lines and items added once, changes, and questions that only a person can settle.
// Never: takes absence for a cancellation; changes what is on a sheet or engraved without being told to.
#pragma once

#include "base/account.h"
#include "intake/intake_row.h"
#include "orders/orders.h"

namespace ordinatio::inline intake {

/// How many rows came to what, besides what the account tells of them.
struct IntakeCounts {
  std::size_t new_orders = 0, new_items = 0, unchanged = 0, changed = 0, asked = 0, cancelled = 0;
  std::vector<HeldOrder> doubles{};  // rows whose id another row has
};

/// Takes the rows in, within the transaction that is open. Rows are matched by the export's line id; without one by a
/// digest of product and words and by which of several alike it is; what then remains of an order that the ledger knows is
/// a line edited or a new one: a question.
IntakeCounts take_in(Ledger& ledger, const Orders& orders, const std::string& file, Account& account,
                     const IntakeRules& rules = {});

/// Every question that is open, with how it is answered, among the account's warnings.
void tell_questions(Ledger& ledger, Account& account);

/// Does what the question proposes, whatever has become of the items: they come off their sheets, and what is engraved
/// with other words is to be made again.
void take_proposal(Ledger& ledger, const LedgerQuestion& question, const IntakeRules& rules, Account& account);
/// Adds what the question proposes as a line of its own.
void add_proposal(Ledger& ledger, const LedgerQuestion& question, const IntakeRules& rules, Account& account);

}  // namespace ordinatio::inline intake
