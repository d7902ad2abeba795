// In: the rows of an export that are no order.
// Out: each of them in the ledger, with its reason, until a later export brings it mended or a person lets it go.
// Never: takes a row for mended without evidence, or a row that is absent for one that is let go.
#pragma once

#include "base/account.h"
#include "intake/intake_row.h"
#include "orders/orders.h"

namespace ordinatio::inline intake {

struct ExportRows {
  const Orders& orders;
  std::vector<std::vector<IntakeRow>> groups;  // the orders, by their numbers
  std::string file, channel;
  bool was_read = false;  // the very file, before: then it is older than what is held since
};
void enter_held_rows(Ledger& ledger, const ExportRows& rows, Account& account);

/// Every row that is open, among what is held.
void tell_held_rows(Ledger& ledger, Account& account);
/// "row-3" or "3". Faults: no such row.
Result<LedgerHeldRow> row_meant(Ledger& ledger, const std::string& typed);
/// Where it stood and what is wrong with it; and the row as it came, in one line.
std::string reason_of(const LedgerHeldRow& row);
std::string as_it_came(const LedgerHeldRow& row);

}  // namespace ordinatio::inline intake
