// A day's work from the book: orders taken in, and everything that waits laid on sheets.
#pragma once

#include "base/account.h"
#include "shop/book_access.h"
#include "shop/day.h"
#include "shop/ledger_pieces.h"
#include "shop/piece_choice.h"
#include "shop/sheet_run.h"

namespace ordinatio {

Result<Account> day_from_book(const Shop& shop, const DayOptions& options, const Progress& progress);

/// Lays a set item on the next sheet that takes its design.
MaybeFault add_to_sheet(SheetRun& run, Workroom& workroom, const Order& order, int ordinal, const SetOrder& set);

/// Waiting items as orders; neighbours of one order that are alike are one order with a quantity.
std::vector<Order> orders_of(const std::vector<LedgerItem>& items);

}  // namespace ordinatio
