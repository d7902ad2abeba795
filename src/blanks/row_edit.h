// In: the bytes of a blanks file, and what is to stand in one row of it.
// Out: the same bytes with that row; every other byte, delimiter, quotes and line ends as they were.
// Never: writes a file; knows what a cell means.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline blanks {

/// column: by its header, in any capitals: see read_blanks.
struct BlankCell {
  std::string column, text;
};
using BlankCells = std::vector<BlankCell>;

/// The file with a row more, behind its last one. A column that the header lacks comes to stand behind the others, empty in
/// every other row, unless its cell is empty here. An empty file gets a header of these columns. file: its name, for messages.
/// Faults: no id, or one that a row has already; the file is no UTF-8, or has no header with an id.
Result<std::string> with_row_added(std::string_view bytes, const BlankCells& cells, const std::string& file);
/// The same with these cells changed in the row of that id; its others stay.
/// Faults: no row or several have the id; one of them cannot be read.
Result<std::string> with_row_changed(std::string_view bytes, const std::string& id, const BlankCells& cells,
                                     const std::string& file);
/// What stands in the row of that id, column by column. Faults: as of with_row_changed.
Result<BlankCells> cells_of_row(std::string_view bytes, const std::string& id, const std::string& file);
/// Without the row of that id, and its line end.
Result<std::string> with_row_removed(std::string_view bytes, const std::string& id, const std::string& file);

}  // namespace ordinatio::inline blanks
