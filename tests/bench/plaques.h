// In: the bench's own orders file.
// Out: orders, and the one plaque and sheet that every program here draws.
// Never: uses the project's libraries: what is measured beside it must owe it nothing.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "orders/orders.h"

namespace bench {

// mm. The bench workshop (tests/bench/shop) says the same.
inline constexpr double blank_width = 152.4, blank_height = 101.6;
inline constexpr double margin = 5;  // from the blank's edge to its border's outer edge
inline constexpr double border_width = 0.6, border_gap = 4;
inline constexpr double clear_inset = margin + border_width + border_gap;
inline constexpr double clear_width = blank_width - 2 * clear_inset, clear_height = blank_height - 2 * clear_inset;
inline constexpr double least_cap_height = 3, most_cap_height = 25;
inline constexpr double leading_em = 1.25;  // baseline to baseline

// mm. Eight plaques a sheet, rows from the top.
inline constexpr int columns = 4, rows = 2, plaques_per_sheet = columns * rows;
inline constexpr double gap = 10, edge = 20;
inline constexpr double bed_width = 2 * edge + columns * blank_width + (columns - 1) * gap;
inline constexpr double bed_height = 2 * edge + rows * blank_height + (rows - 1) * gap;

/// Upper-left corner of a plaque, mm, y down as in SVG.
struct Corner {
  double left, top;
};
Corner plaque_corner(std::size_t place_on_sheet);

struct Order {
  std::string number;
  std::vector<std::string> lines;
};

/// Reads what orders.py writes: a header, then `number,"text"` with lines parted by LF. Throws
/// std::runtime_error.
std::vector<Order> read_orders(const std::filesystem::path& csv);

/// "sheet-00001.svg"
std::string sheet_file(std::size_t sheet);

}  // namespace bench
