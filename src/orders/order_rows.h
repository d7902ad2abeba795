// In: the records of an orders file. Out: orders, rows that are held, and what was noted on the way.
// Never: leaves a row out without a word.
#pragma once

#include <array>

#include "base/account.h"
#include "csv/csv.h"
#include "csv/shown.h"
#include "orders/orders.h"

namespace ordinatio::inline orders {

/// The headers of an orders file, trimmed of spaces, and which of its columns are used.
struct OrderHeader {
  std::string file;
  std::vector<std::string> names;
  std::size_t order = 0, text = 0;
  std::optional<std::size_t> quantity, design, blank, wish, line, note, status, customer, date;
  std::vector<std::size_t> address;
  std::vector<std::size_t> choices;          // of each choice its column, or the text's where it is a label
  std::vector<std::string> warnings, notes;  // of columns that are not there
};

// ---- order_columns.cpp ----
/// Faults: a column is missing, or there twice; one that the file may lack is not there, and a header is near it.
Result<OrderHeader> find_columns(const CsvRecord& record, const OrderFormat& format, const std::string& file);

struct HeldRow {
  std::size_t line;
  HeldItem item;
};
/// Item numbers of a row that makes no order, kept for it so that others keep theirs when it is mended or cancelled.
struct KeptNumbers {
  std::size_t line;
  std::string order;
  int items = 1;
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
  further,     // another row of an order
};
inline constexpr std::size_t remark_count = 8;

// ---- order_labels.cpp ----
/// Labels that most texts of a file begin with, as options do, by their keys; none where shop.toml names the text's.
std::set<std::u32string> survey_labels(CsvReader reader, const OrderHeader& header, const OptionLabels& labels);
/// A text that begins with one of them, or has several, is held. The Fault lacks its place.
MaybeFault object_to_labels(std::string_view text, const std::set<std::u32string>& common, const OptionLabels& labels);

/// The rows below the header, each in one of these lists, in the order of the file.
struct OrderRows {
  std::vector<Order> orders;
  std::vector<std::size_t> lines;  // of each order, until repeats are settled
  std::vector<HeldRow> held;
  std::vector<HeldOrder> rows;  // what is held, as it came, where rows are lines
  std::vector<KeptNumbers> kept;
  std::array<std::vector<std::size_t>, remark_count> remarks;  // the lines of the rows that give them
  std::vector<std::string> repeats;                            // a note for every order number that came twice alike
  std::vector<std::string> warnings;                           // worth a look
};

// ---- order_row.cpp ----
/// doubtful: words that may be others, see DecodedText.
OrderRows read_rows(CsvReader& reader, const OrderHeader& header, const OrderFormat& format, Repeats repeats,
                    const std::map<std::string, Fault>& doubtful);

// ---- repeated_orders.cpp ----
/// Rows of one order number: taken once where they are alike in every used column; the others are further items of the
/// order, numbered in the order of the file.
void settle_repeats(OrderRows& rows, const OrderHeader& header);
inline constexpr int items_limit = 1'000'000;  // of one order; a row beyond it is held: numbers would run over

}  // namespace ordinatio::inline orders
