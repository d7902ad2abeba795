#include <algorithm>

#include "base/account.h"
#include "base/phrase.h"
#include "bookkeeping/bookkeeping.h"
#include "bookkeeping/pockets.h"
#include "shop/bookings.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {}  // namespace

Result<Account> run_engraved(const Shop& shop, const EngravedOptions& options) {
  return in_ledger(shop, options.call, EntryKind::engraving, [&](Ledger& ledger, Account& account) -> MaybeFault {
    for (const std::string& typed : options.sheets) {
      const auto sheet = sheet_meant(ledger, typed);
      if (!sheet.ok()) return sheet.fault();
      const auto placements = options.pockets.empty() ? Result<std::vector<LedgerPlacement>>(still_on(ledger, *sheet))
                                                      : placements_in(ledger, *sheet, options.pockets, "--pockets");
      if (!placements.ok()) return placements.fault();
      for (const LedgerPlacement& placement : *placements) ledger.mark_engraved(placement);
      account.told.push_back(sheet->name + ": " + counted(placements->size(), "item") + " engraved, " +
                             std::to_string(still_on(ledger, *sheet).size()) + " still on it");
    }
    return std::nullopt;
  });
}

Result<Account> run_spoil(const Shop& shop, const SpoilOptions& options) {
  return in_ledger(shop, options.call, EntryKind::spoiling, [&](Ledger& ledger, Account& account) -> MaybeFault {
    if (options.reason.empty()) {
      return Fault{"there is no reason", "--reason", "", "Say what happened: the piece is written off with it"};
    }
    if (options.item.empty()) {
      const auto blank = ledger.blank(options.blank);
      if (!blank) {
        return Fault{"there is no blank " + options.blank, "--blank", "the ledger does not know it",
                     "Look at the stock: ordinatio stock"};
      }
      if (blank->state != LedgerBlank::State::free) {
        return Fault{"blank " + blank->id + " is " + std::string(name_of(blank->state)), "--blank",
                     blank->item ? "item " + ledger.item(*blank->item)->number + " has it" : blank->reason,
                     "Write the item off: ordinatio spoil ITEM"};
      }
      ledger.set_blank_state(blank->id, LedgerBlank::State::spoiled, std::nullopt, options.reason);
      account.told.push_back("blank " + blank->id + " is written off: " + options.reason);
      return std::nullopt;
    }
    const auto item = item_meant(ledger, options.call, options.item, "Write off the piece of");
    if (!item.ok()) return item.fault();
    const auto placement = ledger.placement_of(item->id);
    if (!placement || item->state == ItemState::cancelled) {
      return Fault{"it is not made yet", item->number, "it is " + std::string(name_of(item->state)),
                   "Write off a blank by its own name: --blank"};
    }
    ledger.spoil(*placement, options.reason);
    account.told.push_back(named_with_words(*item) + " is spoiled" +
                           (placement->blank.empty() ? "" : ", blank " + placement->blank + " written off") + ": " +
                           options.reason);
    account.told.emplace_back("It is first in line on the next day's sheets; ordinatio remake " +
                              with_check(item->number) + " makes it at once");
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
