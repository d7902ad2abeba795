// Any bytes: decoded, their delimiter told, read record by record. What must hold for all of them is checked here.
#include <cstdlib>

#include "shop/shop.h"

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
    const std::string& text = record.fields[at].text;
    must((*again)->fields[at].text == text || (*again)->fields[at].text == "'" + text);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto decoded = decode_text(bytes, "", "fuzz.csv");
  if (!decoded) return 0;
  const std::string& text = decoded->text;
  const auto again = decode_text(text, "UTF-8", "again.csv");  // good UTF-8 stays as it is
  must(!again || again->encoding != "UTF-8" || again->text == text);

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
  return 0;
}
