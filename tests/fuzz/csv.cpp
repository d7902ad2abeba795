// Any bytes: decoded, their delimiter told, read record by record, as orders, and as one options cell. What must hold for
// all of them is checked here.
#include <cstdlib>

#include "base/harmless.h"
#include "csv/csv.h"
#include "csv/shown.h"
#include "orders/order_options.h"
#include "orders/order_rows.h"
#include "orders/orders.h"

using namespace ordinatio;

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

std::size_t count_lines(std::string_view text) {
  std::size_t lines = 1;
  for (const char c : text) lines += c == '\n' || c == '\r' ? 1 : 0;
  return lines;
}

void check_record(const CsvRecord& record, std::string_view text, std::size_t lines, std::size_t& last_byte) {
  must(!record.fields.empty());
  for (const CsvField& field : record.fields) {
    must(field.byte >= last_byte && field.byte <= text.size());
    must(field.line >= 1 && field.line <= lines && field.column >= 1);
    must(field.text.find('\0') == std::string::npos);
    must(field.quoted == (text.substr(field.byte, 1) == "\""));
    last_byte = field.byte;
  }
}

/// A row of fields as they are written, and what they are read as again.
void check_round_trip(const CsvRecord& record, char delimiter) {
  if (std::string_view(",;\t").find(delimiter) == std::string_view::npos) return;  // fields are written for these
  std::string written;
  for (const CsvField& field : record.fields) written += csv_field(field.text) + delimiter;
  CsvReader reader(written, delimiter, "again");
  const auto again = reader.next();
  must(again && again->ok() && (*again)->fields.size() == record.fields.size() + 1);
  for (std::size_t at = 0; at < record.fields.size(); ++at) {
    const std::string text = harmless(record.fields[at].text, true);
    must((*again)->fields[at].text == text || (*again)->fields[at].text == "'" + text);
  }
}

const OptionLabels labels{{"Text", "Words"}, {"Note"}, {"Design"}, {"Wood", "A, B"}, {"Love"}};

/// What is taken from a cell stands in it.
void check_options(std::string_view cell) {
  const auto options = OptionsReader(labels).read(cell);
  if (!options.ok()) {
    must(!options.fault().what.empty() && !options.fault().mend.empty());
    return;
  }
  must(!options->texts.empty());
  for (const auto* values : {&options->texts, &options->notes, &options->designs}) {
    for (const std::string& value : *values) {
      must(!value.empty() && trimmed(value) == value && cell.find(value) != std::string_view::npos);
    }
  }
}

/// Every record below the first becomes an order, is held, or is noted.
void check_orders(std::string_view text, const Delimiter& delimiter, Repeats repeats) {
  CsvReader reader(text, delimiter.character, "fuzz.csv", delimiter.skip);
  const auto first = reader.next();
  if (!first || !first->ok()) return;
  const std::size_t columns = (*first)->fields.size();
  OrderHeader header;
  header.names.resize(columns, "a column");
  header.text = columns - 1;
  if (columns > 2) header.quantity = 1;
  if (columns > 3) header.status = 2;
  if (columns > 4) header.line = 3;
  if (columns > 5) header.note = 4;
  OrderFormat format;
  format.labels = labels;
  std::size_t rows = 0;
  for (CsvReader again = reader; again.next();) ++rows;
  OrderRows read = read_rows(reader, header, format, repeats, {});
  const auto remarks = [&](Remark remark) { return read.remarks[static_cast<std::size_t>(remark)].size(); };
  const std::size_t passed_over =
      remarks(Remark::empty) + (repeats == Repeats::settled ? remarks(Remark::cancelled) : 0);
  must(read.orders.size() + read.held.size() + passed_over == rows);
  for (const Order& order : read.orders) {
    must(!order.number.empty() && (order.cancelled || (!order.text.empty() && order.quantity > 0)));
    must(order.texts.empty() || order.texts.size() == static_cast<std::size_t>(order.quantity));
  }
  settle_repeats(read, header);
  int items = 0, parted_items = 0;
  for (const Order& order : read.orders) items += order.quantity;
  for (const Order& order : parted(read.orders)) must(order.texts.empty()), parted_items += order.quantity;
  must(items == parted_items);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto decoded = decode_text(bytes, "", "fuzz.csv");
  if (!decoded.ok()) return 0;
  const std::string& text = decoded->text;
  const auto again = decode_text(text, "UTF-8", "again.csv");  // good UTF-8 stays as it is
  must(!again.ok() || again->encoding != "UTF-8" || again->text == text);

  const Delimiter delimiter = sniff_delimiter(text);
  must(delimiter.skip <= text.size());
  CsvReader reader(text, delimiter.character, "fuzz.csv", delimiter.skip);
  const std::size_t lines = count_lines(text);
  std::size_t records = 0, last_byte = 0;
  while (const auto record = reader.next()) {
    must(++records <= lines);  // every record and every fault takes at least a line
    if (!record->ok()) continue;
    check_record(**record, text, lines, last_byte);
    check_round_trip(**record, delimiter.character);
  }
  check_options(text);
  check_orders(text, delimiter, Repeats::settled);
  check_orders(text, delimiter, Repeats::are_lines);
  return 0;
}
