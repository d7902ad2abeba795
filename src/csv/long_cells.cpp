#include "csv/long_cells.h"

namespace ordinatio::inline csv {

MaybeFault cell_too_long(std::string_view cell, const std::string& name, std::size_t limit) {
  if (cell.size() <= limit) return std::nullopt;
  return Fault{"the cell under " + name + " is too long", "",
               "it has " + std::to_string(cell.size()) + " bytes, and the limit is " + std::to_string(limit),
               "Look into the export: a quote may be missing, so that rows ran into one another"};
}

}  // namespace ordinatio::inline csv
