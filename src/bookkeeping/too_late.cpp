#include "bookkeeping/too_late.h"

#include "shop/ledger_access.h"

namespace ordinatio::inline bookkeeping {

Fault too_late(Ledger& ledger, const LedgerItem& item) {
  std::string where(name_of(item.state));
  if (const auto placement = ledger.placement_of(item.id)) {
    where += ", " + ledger.sheet(placement->sheet)->name + ", pocket " + std::to_string(placement->pocket);
  }
  return {"it is too late for that", item.number, "the item is " + where,
          item.state == ItemState::cancelled ? "Take that back first: ordinatio undo " + with_check(item.number)
          : item.state == ItemState::on_sheet
              ? "Take it off its sheet first: ordinatio take-off " + with_check(item.number)
              : "Have it made again: ordinatio remake " + with_check(item.number) + " (--text for other words)"};
}

Fault not_on_sheet(const LedgerItem& item) {
  return {"it lies on no sheet", item.number, "it is " + std::string(name_of(item.state)),
          "There is nothing to do: the next day's sheets are laid with what waits"};
}

}  // namespace ordinatio::inline bookkeeping
