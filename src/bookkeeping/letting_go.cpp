#include "bookkeeping/bookkeeping.h"
#include "intake/held_rows.h"
#include "shop/ledger_access.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {

Result<Account> run_let_go(const Shop& shop, const LetGoOptions& options) {
  return in_ledger(shop, options.call, EntryKind::letting_go, [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& typed : options.rows) {
      const auto row = row_meant(ledger, typed);
      if (!row.ok()) return row.fault();
      const std::string name = row_name(row->id);
      if (row->state != LedgerHeldRow::State::open) {
        return Fault{name + " is not held", "", "it is " + std::string(name_of(row->state)), "There is nothing to do"};
      }
      ledger.settle(*row, LedgerHeldRow::State::let_go);
      account.told.push_back(name + " is let go: " + as_it_came(*row) + ". ordinatio undo " + name +
                             " takes that back");
    }
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
