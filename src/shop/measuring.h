// A piece that is being measured, as the workshop's file of pieces would have it. Writes nothing.
#pragma once

#include "blanks/blanks.h"
#include "shop/shelf.h"

namespace ordinatio::inline shop {

/// The piece as it would be read from these bytes of the file with this row. id: of the row that the cells change; empty: they
/// are a row more. Faults: the row contradicts itself; what with_row_added and with_row_changed refuse.
Result<BlankRow> measured_piece(const Shop& shop, const Design& nominal, std::string_view bytes, const std::string& id,
                                const BlankCells& cells);

}  // namespace ordinatio::inline shop
