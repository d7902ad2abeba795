// In: the records of an orders file. Out: orders, rows that are held, and what was noted on the way.
// Never: leaves a row out without a word.
#pragma once

#include "shop/shop.h"

namespace ordinatio {

/// The headers of an orders file, trimmed of blanks, and which of its columns are used.
struct OrderHeader {
  std::vector<std::string> names;
  std::size_t order = 0, text = 0;
  std::optional<std::size_t> quantity, design, blank, wish;
};
/// Faults: a column is missing, or there twice.
Result<OrderHeader> find_columns(const CsvRecord& record, const OrderColumns& wanted, const std::string& file);

struct HeldRow {
  std::size_t line;
  HeldItem item;
};
/// The rows below the header, each in one of these lists, in the order of the file.
struct OrderRows {
  std::vector<Order> orders;
  std::vector<std::size_t> lines;  // of each order, until repeats are settled
  std::vector<HeldRow> held;
  std::vector<std::size_t> empty, guarded;  // lines of rows without a word; of numbers that came as ="0123"
  std::vector<std::string> repeats;         // a note for every order number that came twice alike
};
OrderRows read_rows(CsvReader& reader, const OrderHeader& header, const std::string& file);

/// Rows of one order number: taken once where they are alike in every used column, and all held where they are not, since
/// their items would share their names.
void settle_repeats(OrderRows& rows, const OrderHeader& header, const std::string& file);

// ---- words for messages ----

/// Without the blanks around it: ASCII blanks and line ends, no-break space, ideographic space.
std::string_view trimmed(std::string_view text);
/// `"1042"`: in quotes, line ends as " / ", other controls as their pictures, cut after 60 characters; what comes before
/// byte `from` is left out.
std::string shown(std::string_view text, std::size_t from = 0);
/// `line 7`, `lines 2, 3 and 4`, `lines 2, 3, 4, 5, 6 and 995 more`.
std::string list_lines(const std::vector<std::size_t>& lines);

}  // namespace ordinatio
