// The ledger opened for a command, and what is in it found as a person names it.
#pragma once

#include "base/account.h"
#include "bed/item_number.h"
#include "intake/ledger_words.h"
#include "ledger/database.h"
#include "ledger/ledger.h"
#include "orders/orders.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

inline constexpr const char* sheets_stem = "sheets";  // of the hidden folder in which a ledger's sheets are made ready

/// Opens the workshop's ledger; for writing, sheets that an interrupted command left planned come to their place first.
/// Faults: the workshop keeps no ledger, and what Ledger::open says.
Result<std::unique_ptr<Ledger>> open_ledger(const Shop& shop, const LedgerCall& call, Ledger::Access access);
/// The person has heard the account: the same command run once more is another one. Where `LedgerCall::to_be_heard`, a
/// command that was cut off before this is not done twice: it gives the same account again.
MaybeFault acknowledge(const Shop& shop, const LedgerCall& call, const Account& account);

/// Whether the workshop keeps a ledger and has begun it.
bool has_ledger(const Shop& shop);
/// For a look at what an export would change: with a ledger in passing where there is none yet.
Result<std::unique_ptr<Ledger>> open_to_see(const Shop& shop, const LedgerCall& call);

/// The item of that number as it was typed. Where its check character was left out and a person is there, its words are
/// shown and the person is asked. Faults: no such item, a wrong check character, the person said no.
Result<LedgerItem> item_meant(Ledger& ledger, const LedgerCall& call, const std::string& typed,
                              const std::string& what);
/// "sheet-003" or "3". Faults: no such sheet.
Result<LedgerSheet> sheet_meant(Ledger& ledger, const std::string& typed);

/// How the ledger writes down where sheets are, and where that is on the disk.
std::string folder_in_ledger(const Shop& shop, const std::filesystem::path& folder);
std::filesystem::path folder_on_disk(const Shop& shop, const LedgerSheet& sheet);

/// An item of the ledger as an order of one, to be composed.
Order order_of(const LedgerItem& item);

}  // namespace ordinatio::inline shop
