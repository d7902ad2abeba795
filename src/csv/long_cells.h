// In: a row of an export. Out: the cell of it that is too long to be what its column says. Of orders and pieces alone.
// Never: shortens one.
#pragma once

#include <optional>

#include "base/base.h"

namespace ordinatio::inline csv {

/// Bytes of a cell that names something: an order's number, a design, a piece, a status. It stands on lists, labels and in
/// files, and is compared with all others.
inline constexpr std::size_t name_limit = 500;
/// Bytes of a cell with the customer's words: options of some hundred pieces, each with a text of its own.
inline constexpr std::size_t words_limit = 200'000;

/// Whether the cell is longer than `limit`; the Fault has no place yet.
MaybeFault cell_too_long(std::string_view cell, const std::string& name, std::size_t limit);

}  // namespace ordinatio::inline csv
