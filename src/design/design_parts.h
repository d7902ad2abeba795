// A design as it is being read: its parts, each beside the table it was read from, so that a check made later
// still finds the line. Of this folder alone.
#pragma once

#include <vector>

#include "design/design.h"
#include "design/toml_table.h"

namespace ordinatio::inline design {

struct DesignTables {
  TomlTable root, blank, clear;
  std::vector<TomlTable> texts, borders, logos, kept_clear, samples;  // in step with the design's parts
};

// ---- kept_clear_check.cpp ----
/// A thing kept clear as its table tells it. Remembers Faults in the file.
KeptClear read_kept_clear(TomlTable& table);

// ---- design_check.cpp ----
/// Whether the parts agree with the blank and with one another: room inside the margin and the borders, boxes
/// on the blank and clear of each other. Wants a design whose single values are sound; remembers Faults in
/// the file.
void check_design(const Design& design, DesignTables& tables);

// ---- kept_clear_check.cpp ----
/// Whether borders and logos leave alone what is kept clear, and texts have some room beside it.
void check_kept_clear(const Design& design, DesignTables& tables);

}  // namespace ordinatio::inline design
