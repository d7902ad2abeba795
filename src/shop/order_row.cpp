#include <algorithm>
#include <charconv>

#include "shop/blank_cells.h"
#include "shop/csv_rows.h"
#include "shop/order_rows.h"

namespace ordinatio {
namespace {

constexpr std::string_view replacement = "\uFFFD";

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// What ="0123" guards: the way spreadsheets are told to keep an id's leading zeros.
std::string_view without_guard(std::string_view number) {
  if (number.size() < 3 || !number.starts_with("=\"") || !number.ends_with('"')) return number;
  return trimmed(number.substr(2, number.size() - 3));
}

/// 1.23457E+12 or 1,23457E+12. What programs write so has a decimal mark or the exponent's sign: 12E4 is an id.
bool in_scientific_notation(std::string_view number) {
  const std::size_t e = std::min(number.find_first_of("eE"), number.size());
  std::string mantissa(number.substr(0, e));
  std::string_view exponent = number.substr(std::min(e + 1, number.size()));
  const auto strip_sign = [](auto& text) {
    const bool sign = text.starts_with('+') || text.starts_with('-');
    if (sign) text = text.substr(1);
    return sign;
  };
  strip_sign(mantissa);
  const bool sign = strip_sign(exponent);
  const std::size_t mark = mantissa.find_first_of(".,");
  if (mark != std::string::npos) mantissa.erase(mark, 1);
  return all_digits(mantissa) && all_digits(exponent) && (sign || mark != std::string::npos);
}

/// One record on its way to an order, with what its faults need to say where.
class RowReading {
 public:
  RowReading(const CsvRecord& record, const OrderHeader& header, const std::string& file)
      : record_(record), header_(header), file_(file) {}

  MaybeFault read(Order& order, bool& guarded) const {
    if (auto fault = check_width(record_, header_.names, file_)) return fault;
    if (auto fault = read_number(order, guarded)) return fault;
    if (auto fault = read_text(order)) return fault;
    if (auto fault = read_quantity(order)) return fault;
    if (auto fault = read_design(order)) return fault;
    if (auto fault = read_pieces(order)) return fault;
    return read_wish(order);
  }

 private:
  [[nodiscard]] Fault fault_in(std::size_t column, std::string what, std::string why, std::string mend) const {
    return {std::move(what), place_of(record_.fields[column], header_.names[column], file_), std::move(why),
            std::move(mend)};
  }
  MaybeFault check_letters(std::size_t column) const;
  MaybeFault read_number(Order& order, bool& guarded) const;
  MaybeFault read_text(Order& order) const;
  MaybeFault read_quantity(Order& order) const;
  MaybeFault read_design(Order& order) const;
  MaybeFault read_pieces(Order& order) const;
  MaybeFault read_wish(Order& order) const;

  const CsvRecord& record_;
  const OrderHeader& header_;
  const std::string& file_;
};

MaybeFault RowReading::check_letters(std::size_t column) const {
  const std::string& text = record_.fields[column].text;
  const std::size_t lost = text.find(replacement);
  if (lost == std::string::npos) return std::nullopt;
  return fault_in(column, "a character is lost in " + shown(text),
                  "its bytes mean nothing in the encoding that was taken",
                  "Write the character again, or export the orders as UTF-8");
}

MaybeFault RowReading::read_number(Order& order, bool& guarded) const {
  if (auto fault = check_letters(header_.order)) return fault;
  const std::string_view written = trimmed(record_.fields[header_.order].text);
  const std::string_view number = without_guard(written);
  if (number.empty()) {
    return fault_in(header_.order, "no order number", "the piece could not be told from others",
                    "Write the order's number in this column");
  }
  if (in_scientific_notation(number)) {
    return fault_in(header_.order, "the order number " + shown(number) + " is in scientific notation",
                    "a spreadsheet rounded it and its last digits are gone",
                    "Take the shop's original export, not one that a spreadsheet has saved");
  }
  if (std::any_of(number.begin(), number.end(), [](char c) { return (c >= 0 && c < ' ') || c == '\x7F'; })) {
    return fault_in(header_.order, "the order number " + shown(number) + " holds a line end or a control character",
                    "it stands on labels and in file names", "Write the number in one line");
  }
  order.number = number;
  guarded = number.size() != written.size();
  return std::nullopt;
}

MaybeFault RowReading::read_text(Order& order) const {
  if (auto fault = check_letters(header_.text)) return fault;
  const std::string& text = record_.fields[header_.text].text;
  if (trimmed(text).empty()) {
    return fault_in(header_.text, "no text", "there is nothing to engrave",
                    "Write the text, or take the row out if the piece is to stay bare");
  }
  order.text = text;
  return std::nullopt;
}

MaybeFault RowReading::read_quantity(Order& order) const {
  if (!header_.quantity) return std::nullopt;
  const std::string mend = "Write a whole number from 1 to " + std::to_string(quantity_limit);
  const std::string_view written = trimmed(record_.fields[*header_.quantity].text);
  if (written.empty()) {
    return fault_in(*header_.quantity, "no quantity", "how many pieces are wanted cannot be told", mend);
  }
  const auto fault = [&](const std::string& why) {
    return fault_in(*header_.quantity, "the quantity " + shown(written) + " cannot be made", why, mend);
  };
  int quantity = 0;
  const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), quantity);
  const bool whole = end == written.data() + written.size();
  if (error == std::errc::invalid_argument || !whole) return fault("it is no whole number in digits alone");
  if (error == std::errc() && quantity < 1) return fault("at least one piece is wanted");
  if (error == std::errc::result_out_of_range && written.starts_with('-')) return fault("at least one piece is wanted");
  if (error != std::errc() || quantity > quantity_limit)
    return fault("so many in one row are taken for a slip of the pen");
  order.quantity = quantity;
  return std::nullopt;
}

MaybeFault RowReading::read_design(Order& order) const {
  if (!header_.design) return std::nullopt;
  if (auto fault = check_letters(*header_.design)) return fault;
  order.design = trimmed(record_.fields[*header_.design].text);
  return std::nullopt;
}

MaybeFault RowReading::read_pieces(Order& order) const {
  if (!header_.blank) return std::nullopt;
  if (auto fault = check_letters(*header_.blank)) return fault;
  for (const std::string_view id : parts_in(record_.fields[*header_.blank].text)) order.blanks.emplace_back(id);
  if (order.blanks.size() <= static_cast<std::size_t>(order.quantity)) return std::nullopt;
  return fault_in(*header_.blank, "there are more pieces named than the order has items",
                  std::to_string(order.blanks.size()) + " are named for " + std::to_string(order.quantity),
                  "Name one piece an item, parted by semicolons, or mend the quantity");
}

MaybeFault RowReading::read_wish(Order& order) const {
  if (!header_.wish) return std::nullopt;
  if (auto fault = check_letters(*header_.wish)) return fault;
  const CsvField& field = record_.fields[*header_.wish];
  Result<PieceWish> wish = parse_wish(field.text, place_of(field, header_.names[*header_.wish], file_));
  if (!wish) return wish.fault();
  order.wish = std::move(*wish);
  return std::nullopt;
}

void add_row(const CsvRecord& record, const OrderHeader& header, const std::string& file, OrderRows& rows) {
  const std::size_t line = record.fields.front().line;
  Order order;
  order.source = file + ":" + std::to_string(line);
  bool guarded = false;
  if (auto fault = RowReading(record, header, file).read(order, guarded)) {
    const std::string id = order.number.empty() ? "line " + std::to_string(line) : order.number;
    rows.held.push_back({line, {id, *fault}});
    return;
  }
  if (guarded) rows.guarded.push_back(line);
  rows.orders.push_back(std::move(order));
  rows.lines.push_back(line);
}

}  // namespace

OrderRows read_rows(CsvReader& reader, const OrderHeader& header, const std::string& file) {
  OrderRows rows;
  while (const auto record = reader.next()) {
    if (!record->ok()) {
      rows.held.push_back({reader.line(), {"line " + std::to_string(reader.line()), record->fault()}});
    } else if (is_empty(**record)) {
      rows.empty.push_back(reader.line());
    } else {
      add_row(**record, header, file, rows);
    }
  }
  return rows;
}

}  // namespace ordinatio
