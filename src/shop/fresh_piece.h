// Another piece for an item that is made again, or that leaves the piece it lay on.
#pragma once

#include "base/account.h"
#include "bed/bed.h"
#include "ledger/ledger.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

struct PieceSearch {
  LedgerItem item;
  bool is_exact = true;  // its words are as they were
  std::string blank;     // the one that is asked for; empty: any
  std::string date;      // that it was engraved with
};
/// What was engraved on a measured piece needs another one: a free one that takes it as it was; or, where none does or the
/// words are others, the one on which it comes out best. Faults: no piece is free, none takes it.
Result<SheetItem> on_fresh_piece(Workroom& workroom, Ledger& ledger, const PieceSearch& search, const SheetItem& was,
                                 Account& account);

}  // namespace ordinatio::inline shop
