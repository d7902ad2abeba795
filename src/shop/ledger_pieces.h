// Measured pieces as the ledger has them.
#pragma once

#include "base/account.h"
#include "ledger/ledger.h"
#include "shop/piece_choice.h"

namespace ordinatio::inline shop {

/// Reads the pieces, where the workshop measures them, into the ledger: new ones are added, those measured anew noted. Gives
/// those that are free or kept for an item that waits.
Result<std::optional<FreePieces>> pieces_of_ledger(Workroom& workroom, Ledger& ledger,
                                                   const std::filesystem::path& file, Account& account);

/// The same where only the ledger is to know of them.
MaybeFault note_pieces(const Shop& shop, Ledger& ledger);

}  // namespace ordinatio::inline shop
