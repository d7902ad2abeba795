#include "orders/orders.h"
#include "csv/csv.h"
#include "csv/shown.h"
#include "orders/order_rows.h"

namespace ordinatio::inline orders {
namespace {

/// The file's own bytes are gone when it returns: a large file is in memory once.
Result<DecodedText> read_text(const std::filesystem::path& csv, const std::string& encoding, std::string& checksum) {
  const auto bytes = read_file(csv);
  if (!bytes.ok()) return bytes.fault();
  checksum = sha256_hex(*bytes);
  return decode_text(*bytes, encoding, csv.filename().string());
}

MaybeFault check_delimiter(std::optional<char> delimiter) {
  if (!delimiter || (*delimiter > 0 && std::string_view("\"\r\n").find(*delimiter) == std::string_view::npos)) {
    return std::nullopt;
  }
  return Fault{"the delimiter cannot part fields", "shop.toml", "quotes and line ends have their own meaning",
               "Set it to \",\", \";\" or a tab, or leave it out"};
}

std::string name_delimiter(char delimiter) {
  return delimiter == '\t' ? "tabs" : "\"" + std::string(1, delimiter) + "\"";
}

void note_reading(const OrderFormat& format, const DecodedText& decoded, const Delimiter& sniffed, char delimiter,
                  const std::string& file, std::vector<std::string>& notes) {
  notes.push_back(file + ": read as " + decoded.encoding + decoded.told);
  notes.push_back(file + ": fields parted by " + name_delimiter(delimiter) +
                  (format.delimiter   ? ", as set in shop.toml"
                   : sniffed.skip > 0 ? ", as its sep= line says"
                                      : ", told from its first rows"));
}

void note_rows(OrderRows& rows, const std::string& file, std::vector<std::string>& notes) {
  struct Words {
    Remark remark;
    std::string_view before, behind;  // the lines
  };
  constexpr Words all[] = {
      {Remark::empty, "nothing stands on ", ": passed over"},
      {Remark::cancelled, "cancelled on ", ": passed over"},
      {Remark::half_said, "a status with a word of cancellation, which is none of those that cancel, on ",
       ": taken as orders; name it under cancelled in shop.toml if it is one"},
      {Remark::guarded_number, "order numbers guarded as =\"…\" on ", ": the guard was taken off"},
      {Remark::guarded_line, "line ids guarded as =\"…\" on ", ": the guard was taken off"},
      {Remark::alike, "one text for several pieces on ", ": engraved alike"},
      {Remark::open_ended, "a text that ends with a comma, a semicolon or a bar, as options do, on ",
       ": kept as it came"},
      {Remark::further, "another row of an order on ", ": further items of it, numbered in the order of the rows"},
  };
  for (const Words& words : all) {
    const std::vector<std::size_t>& lines = rows.remarks[static_cast<std::size_t>(words.remark)];
    if (lines.empty()) continue;
    notes.push_back(file + ": " + std::string(words.before) + list_lines(lines) + std::string(words.behind));
  }
  std::move(rows.repeats.begin(), rows.repeats.end(), std::back_inserter(notes));
}

}  // namespace

Result<Orders> read_orders(const std::filesystem::path& csv, const OrderFormat& format, Repeats repeats) {
  if (MaybeFault fault = check_delimiter(format.delimiter)) return *fault;
  Orders orders;
  const auto decoded = read_text(csv, format.encoding, orders.checksum);
  if (!decoded.ok()) return decoded.fault();

  const std::string file = csv.filename().string();
  const Delimiter sniffed = sniff_delimiter(decoded->text);
  const char delimiter = format.delimiter.value_or(sniffed.character);
  CsvReader reader(decoded->text, delimiter, file, sniffed.skip);
  const auto first = reader.next();
  if (!first) return Fault{"no orders", file, "the file is empty", "Export the orders again"};
  if (!first->ok()) return first->fault();
  const auto header = find_columns(**first, format, file);
  if (!header.ok()) return header.fault();
  reader.name_columns(header->names);

  OrderRows rows = read_rows(reader, *header, format, repeats, decoded->doubtful);
  const bool cancelled = !rows.remarks[static_cast<std::size_t>(Remark::cancelled)].empty();
  if (rows.orders.empty() && rows.held.empty() && !cancelled) {
    return Fault{"no orders", file, "there is no row below the header", "Export the orders again"};
  }
  if (repeats == Repeats::settled) settle_repeats(rows, *header);

  note_reading(format, *decoded, sniffed, delimiter, file, orders.notes);
  orders.notes.insert(orders.notes.end(), header->notes.begin(), header->notes.end());
  note_rows(rows, file, orders.notes);
  orders.warnings = header->warnings;
  if (!decoded->look_at.empty()) orders.warnings.push_back(file + ": " + decoded->look_at);
  std::move(rows.warnings.begin(), rows.warnings.end(), std::back_inserter(orders.warnings));
  orders.orders = std::move(rows.orders);
  orders.rows = std::move(rows.rows);
  for (HeldRow& row : rows.held) orders.held.push_back(std::move(row.item));
  return orders;
}

}  // namespace ordinatio::inline orders
