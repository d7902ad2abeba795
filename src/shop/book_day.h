// A day's work from the book: orders taken in, and everything that waits laid on sheets.
#pragma once

#include "base/account.h"
#include "shop/book_access.h"
#include "shop/day.h"
#include "shop/piece_choice.h"
#include "shop/sheet_run.h"

namespace ordinatio {

Result<Account> day_from_book(const Shop& shop, const DayOptions& options, const Progress& progress);

/// Lays a set item on the next sheet that takes its design.
MaybeFault add_to_sheet(SheetRun& run, Workroom& workroom, const Order& order, int ordinal, const SetOrder& set);

/// The measured pieces that items of the book may have, and for whom some of them are kept.
struct FreePieces {
  Blanks blanks;
  std::map<std::string, std::string> reserved;  // blank → item's number
};
/// Reads the pieces, where the workshop measures them, into the book: new ones are added, those measured anew noted. Gives
/// those that are free or kept for an item that waits.
Result<std::optional<FreePieces>> pieces_of_book(Workroom& workroom, Ledger& ledger, const std::filesystem::path& file,
                                                 Account& account);

/// The same where only the book is to know of them.
MaybeFault note_pieces(const Shop& shop, Ledger& ledger);

/// Waiting items as orders; neighbours of one order that are alike are one order with a quantity.
std::vector<Order> orders_of(const std::vector<LedgerItem>& items);

}  // namespace ordinatio
