// In: a shop's export.
// Out: orders, rows that are held with their reasons, and what was noted on the way.
// Never: leaves a row out without a word; judges whether words can be engraved.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/account.h"
#include "design/variant.h"
#include "text/language.h"

namespace ordinatio::inline orders {

struct OrderColumns {
  std::string order = "Order", text = "Text", quantity = "Quantity", design = "Design", blank = "Blank", wish = "Wish";
  std::string line = "Line", note = "Note", status = "Status", name = "Customer";  // an empty name is no column
  std::string date = "Date";                                                       // of the order
  std::vector<std::string> address = {};  // that the parcel goes to, a part of it a column; none: it is not read
};
/// How an options cell is read: `Label: value` pairs behind line ends, `|`, `;` or `,`. Capitals do not count.
struct OptionLabels {
  std::vector<std::string> text, note, design;
  std::vector<std::string> other;  // read and passed over
  std::vector<std::string> words;  // look like labels and are part of what they stand in: `Love: Mum`
  /// Whether the text column holds options cells.
  [[nodiscard]] bool used() const { return !text.empty(); }
};
/// Which design, face or size the words of an option stand for.
struct OptionChoice {
  std::string option;  // a column of the file, or a label in its options cells
  bool is_label = false;
  std::vector<std::pair<std::string, DesignVariant>> words;  // capitals do not count; what is empty is not chosen
};
struct OrderFormat {
  OrderColumns columns;
  std::set<std::string, std::less<>> written;  // of their keys those that shop.toml has: the file should have them, too
  OptionLabels labels;
  std::vector<OptionChoice> choices;
  std::string default_design;  // of which a face or size alone is chosen
  /// Of the status column, whole; capitals do not count.
  std::vector<std::string> cancelled = {"cancelled", "canceled", "refunded"};
  std::string encoding;           // "": told from the bytes
  std::optional<char> delimiter;  // absent: sniffed
  std::string line_separator;     // parts a text's lines besides newlines
  bool decode_entities = true;
};
/// What a customer wants of the piece.
struct PieceWish {
  std::vector<std::string> keep;  // `keep: stamp`: a thing of this name must be on it
  bool full_size = false;         // `size: full`: nothing may be missing from it
  friend bool operator==(const PieceWish&, const PieceWish&) = default;
};

// ---- order_wish.cpp ----
/// `keep: stamp; size: full`, as the wish column has it. `where` is the Fault's place.
Result<PieceWish> parse_wish(std::string_view cell, const std::string& where);
/// What parse_wish reads the same wish from.
std::string wish_text(const PieceWish& wish);

/// One row of the orders.
struct Order {
  std::string number;              // "1042"
  int first = 1;                   // the ordinal of its first item: "1042-3" where it is 3
  std::string text;                // as it came; where its items' texts differ, the first one's
  std::vector<std::string> texts;  // one for each item where they differ; else empty
  int quantity = 1;
  std::string design;               // empty: the shop's default
  std::vector<std::string> blanks;  // pieces that its items must be engraved on, one after the other
  PieceWish wish;
  std::string line;          // the export's own id of the row; empty: it has none
  std::string note;          // to the maker, as it came; never engraved
  std::string customer;      // who ordered it
  std::string date;          // when, as it came
  std::string address;       // that it goes to, a line a column
  bool cancelled = false;    // then its text may be anything, and its quantity 0
  std::string source;        // "orders.csv:12"
  std::string row;           // as it came, where rows are lines; else empty
  ToldLanguage told = {};    // in whose forms its words are set: see tell_languages
  SettingWish setting = {};  // of its items, where a person has given them one of their own; `design` is chosen by it
};
/// A row that is no order, as it came, and what could be read of it.
struct HeldOrder {
  Order order;       // its number, line, customer, row and source
  int place = 0;     // line of the file
  Fault fault = {};  // the same as among `held`
};
struct Orders {
  std::vector<Order> orders;
  std::vector<HeldItem> held;         // rows that are no order; the rest goes on
  std::vector<HeldOrder> rows;        // the same, where rows are lines
  std::vector<std::string> notes;     // encoding, delimiter, absent columns, empty rows, guards, rows twice alike
  std::vector<std::string> warnings;  // worth a look
  std::string checksum;               // SHA-256 of the file's bytes
};
inline constexpr int quantity_limit = 10'000;  // more in one row is taken for a slip of the pen and held

/// What rows of one order number are. settled: rows alike are one row, taken once, others further items, numbered in the
/// order of the file; cancelled rows are passed over. are_lines: each a line of the order, cancelled ones too.
enum class Repeats { settled, are_lines };

// ---- orders.cpp ----
/// Faults only where nothing can be read: no file, empty, no header, a column missing.
Result<Orders> read_orders(const std::filesystem::path& csv, const OrderFormat& format,
                           Repeats repeats = Repeats::settled);

// ---- order_items.cpp ----
/// Orders whose items all have the same words: one whose texts differ comes as several, with `first` running on and its
/// named blanks shared out.
std::vector<Order> parted(std::vector<Order> orders);

}  // namespace ordinatio::inline orders
