// Sheets whose files show what has come off them since.
#pragma once

#include "base/account.h"
#include "bed/bed.h"
#include "shop/ledger_access.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {

/// Writes the files of each such sheet anew, with what is still on it: the same bed, marks and pockets; those before, and
/// those laid to measured marks, go aside. A sheet with nothing left on it has no files any more. Where that cannot be done
/// the sheet is stale, and the account warns of it. After the command's own transaction.
void renew_sheets(const Shop& shop, Ledger& ledger, const std::string& asked, Account& account);

/// The workshop that writes the sheet as it was written: `day --dxf` may have said another version than shop.toml.
Shop shop_as_written(const Shop& shop, const LedgerSheet& sheet);
/// Makes the files of one sheet ready with what is on it now, each kind that it had, and plans them, in the transaction that is
/// open. why: for the sheet's story. anew: see drawn_again.
MaybeFault write_anew(Workroom& workroom, Ledger& ledger, Delivery& delivery, const LedgerSheet& sheet,
                      const std::string& why, Account& account, const std::optional<SheetItem>& anew = {});

/// Items that are on their sheet again: where the files laid to measured marks were made without one, while it was engraved,
/// they lack it, and the sheet is written anew.
void mark_lacking(const Shop& shop, Ledger& ledger, const std::vector<std::int64_t>& items);

/// What a sheet's files show that is not to be engraved there, and what they lack: "they show 1042-2/K (withdrawn)".
std::string outdated_by(Ledger& ledger, const LedgerSheet& sheet);
/// "sheet-003 is stale: …", and why it still is.
std::string stale_text(Ledger& ledger, const LedgerSheet& sheet);

}  // namespace ordinatio::inline shop
