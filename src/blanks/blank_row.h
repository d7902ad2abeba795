// In: the header and the records of a blanks file.
// Out: one measured piece a record, or a Fault with row and column.
// Never: knows other rows. Of this folder alone.
#pragma once

#include "blanks/blank_cells.h"
#include "csv/csv.h"

namespace ordinatio::inline blanks {

enum class BlankColumn {
  id,
  material,
  glass,
  width,
  height,
  thickness,
  corners,
  chips,
  keep_clear,
  outline,
  factory_edges,
  used,
  note
};
inline constexpr std::array<std::string_view, 13> blank_columns{
    "id",    "material",   "glass",   "width",         "height", "thickness", "corners",
    "chips", "keep_clear", "outline", "factory_edges", "used",   "note"};

struct BlankHeader {
  std::vector<std::string> names;  // as they stand in the file
  std::array<std::optional<std::size_t>, blank_columns.size()> at{};
  std::vector<std::string> notes;  // columns that are not known
};

// ---- blank_columns.cpp ----
/// Faults: no column id, or a column that is there twice.
Result<BlankHeader> find_blank_columns(const CsvRecord& record, const std::string& file);

/// What a row is read against, and what is noted while all are read.
struct BlankReading {
  const BlankHeader& header;
  const std::string& file;
  double nominal_width, nominal_height;  // mm
  const Outline& nominal;
  const ReadDrawing& read_drawing;
  std::vector<std::size_t> moved;          // lines of outlines that did not start at 0,0
  std::vector<std::string> drawing_notes;  // what was passed over in drawings
};

// ---- blank_row.cpp ----
/// Its id alone: what stands in the cell, also where the row is held; empty where there is none.
std::string id_of(const CsvRecord& record, const BlankHeader& header);
Result<BlankRow> read_blank_row(const CsvRecord& record, BlankReading& reading);

}  // namespace ordinatio::inline blanks
