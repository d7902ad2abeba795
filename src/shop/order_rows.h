// In: the records of an orders file. Out: orders, rows that are held, and what was noted on the way.
// Never: leaves a row out without a word.
#pragma once

#include <array>

#include "shop/shop.h"

namespace ordinatio {

/// The headers of an orders file, trimmed of spaces, and which of its columns are used.
struct OrderHeader {
  std::vector<std::string> names;
  std::size_t order = 0, text = 0;
  std::optional<std::size_t> quantity, design, blank, wish, line, note, status, customer;
};
/// Faults: a column is missing, or there twice.
Result<OrderHeader> find_columns(const CsvRecord& record, const OrderColumns& wanted, const std::string& file);

struct HeldRow {
  std::size_t line;
  HeldItem item;
};
/// What a row gives to note, whether it becomes an order or not.
enum class Remark {
  empty,           // nothing but spaces
  guarded_number,  // it came as ="0123"
  guarded_line,
  cancelled,   // passed over
  half_said,   // a word of cancellation is in its status, but the status is none that cancels
  alike,       // one text among the options, several pieces
  open_ended,  // a text among options ends with what may part them
};
inline constexpr std::size_t remark_count = 7;

/// The rows below the header, each in one of these lists, in the order of the file.
struct OrderRows {
  std::vector<Order> orders;
  std::vector<std::size_t> lines;  // of each order, until repeats are settled
  std::vector<HeldRow> held;
  std::vector<HeldOrder> rows;                                 // what is held, as it came, where rows are lines
  std::array<std::vector<std::size_t>, remark_count> remarks;  // the lines of the rows that give them
  std::vector<std::string> repeats;                            // a note for every order number that came twice alike
};
OrderRows read_rows(CsvReader& reader, const OrderHeader& header, const OrderFormat& format, Repeats repeats,
                    const std::string& file);

/// Rows of one order number: taken once where they are alike in every used column, and all held where they are not, since
/// their items would share their names.
void settle_repeats(OrderRows& rows, const OrderHeader& header, const std::string& file);

// ---- words for messages ----

/// Without the spaces around it: ASCII spaces and line ends, no-break space, ideographic space.
std::string_view trimmed(std::string_view text);
/// `"1042"`: in quotes, line ends as " / ", other controls as their pictures, cut after 60 characters; what comes before
/// byte `from` is left out.
std::string shown(std::string_view text, std::size_t from = 0);
/// The same whole, but for what is longer than a page.
std::string shown_whole(std::string_view text);
/// `line 7`, `lines 2, 3 and 4`, `lines 2, 3, 4, 5, 6 and 995 more`.
std::string list_lines(const std::vector<std::size_t>& lines);

}  // namespace ordinatio
