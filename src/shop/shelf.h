// The file of measured pieces, written by the program: a piece put on the shelf, measured anew, taken away again.
#pragma once

#include "base/account.h"
#include "blanks/row_edit.h"
#include "shop/shop.h"

namespace ordinatio::inline shop {

/// The workshop's file of pieces; blanks.csv where it names none.
std::filesystem::path shelf_file(const Shop& shop);
/// Its bytes; none where there is no such file yet.
Result<std::string> shelf_bytes(const Shop& shop);

/// Each of these writes the workshop's file of pieces whole or not at all, while no other command has the ledger, and only where it
/// reads back as meant: the row as a piece, every other row as before.

/// A row more. A workshop that measures no pieces yet begins blanks.csv, and shop.toml names it. A row that stands there
/// with the very same cells is left.
/// Faults: as of with_row_added; the row contradicts itself.
Result<Account> run_add_blank(const Shop& shop, const LedgerCall& call, const BlankCells& cells);
/// These cells of the row of that id; the others stay. Faults: something was made on the piece.
Result<Account> run_change_blank(const Shop& shop, const LedgerCall& call, const std::string& id,
                                 const BlankCells& cells);
/// Without the row. Faults: something was made on the piece or it is kept for an item; it is the file's only one.
Result<Account> run_remove_blank(const Shop& shop, const LedgerCall& call, const std::string& id);

}  // namespace ordinatio::inline shop
