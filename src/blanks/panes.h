// In: panes.csv: reclaimed panes of glass and slates as they were measured.
// Out: panes to cut, rows that are held, and what was noted on the way; rows for blanks.csv.
// Never: leaves a row out without a word.
#pragma once

#include "base/account.h"
#include "bed/cutting.h"

namespace ordinatio::inline blanks {

struct PaneRow {
  Pane pane;
  std::optional<double> thickness;  // mm
  std::string material, note;       // may be empty
  std::string glass;                // annealed, or none; empty where nothing speaks of glass
  std::string source;               // "panes.csv:7"
};
struct PaneRows {
  std::vector<PaneRow> panes;
  std::vector<HeldItem> held;
  std::vector<std::string> notes;
};
inline constexpr double thickest_pane = 200;  // mm; more is taken for a slip of the pen and held

// ---- pane_rows.cpp ----
/// Columns in any order, by their names: id, width, height must be there; thickness, material, glass, factory_edges, keep,
/// note may be. Faults only where nothing can be read.
Result<PaneRows> read_panes(const std::filesystem::path& csv);

// ---- pane_cells.cpp ----
/// "left bottom": the words for chosen sides, parted by spaces.
std::string words_for(const Sides& sides);
/// Faults say what is wrong with the cell, for the caller to say where.
Result<Sides> read_sides(std::string_view cell);
/// `clear 10 20 30 15 scratch; whole 100 50 40 20 stamp`: kind, left, bottom, width, height, name.
Result<std::vector<PaneThing>> read_pane_things(std::string_view cell);

}  // namespace ordinatio::inline blanks
