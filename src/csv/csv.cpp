#include <algorithm>
#include <array>

#include "base/harmless.h"
#include "base/utf8.h"
#include "csv/csv.h"

namespace ordinatio::inline csv {
namespace {

bool ends_line(char c) { return c == '\n' || c == '\r'; }

/// A place in the text: its byte, line and character column move together. CRLF, LF and a lone CR each end a
/// line.
class Cursor {
 public:
  Cursor(std::string_view text, std::size_t byte, std::size_t line) : text_(text), byte_(byte), line_(line) {}

  [[nodiscard]] std::size_t byte() const { return byte_; }
  [[nodiscard]] std::size_t line() const { return line_; }
  [[nodiscard]] std::size_t column() const { return column_; }
  [[nodiscard]] bool at_end() const { return byte_ == text_.size(); }
  [[nodiscard]] bool at(char c) const { return !at_end() && text_[byte_] == c; }
  [[nodiscard]] bool at_line_end() const { return !at_end() && ends_line(text_[byte_]); }
  [[nodiscard]] std::string_view rest() const { return text_.substr(byte_); }
  [[nodiscard]] std::string_view since(const Cursor& start) const {
    return text_.substr(start.byte_, byte_ - start.byte_);
  }

  void step() {
    const char c = text_[byte_++];
    if (c == '\n' || (c == '\r' && !at('\n'))) {
      ++line_;
      column_ = 1;
    } else if (!continues_character(c)) {
      ++column_;
    }
  }
  void to_next_line() {
    for (const std::size_t line = line_; !at_end() && line_ == line;) step();
  }

 private:
  std::string_view text_;
  std::size_t byte_, line_, column_ = 1;
};

/// What is wrong with a record, and where.
struct Complaint {
  Cursor place;
  std::string what, why, mend;
};

Complaint unclosed(const Cursor& opening, std::string why) {
  return {opening, "a quote is opened and not closed", std::move(why),
          "Close the quote, and double every quote that belongs to the words (\"\"); reading went on at the "
          "next line"};
}

/// A field in quotes; the cursor stands at the opening one and afterwards behind the closing one.
std::optional<Complaint> read_quoted(Cursor& cursor, char delimiter, CsvField& field) {
  const Cursor opening = cursor;
  field.quoted = true;
  cursor.step();
  for (;;) {
    const Cursor start = cursor;
    while (!cursor.at_end() && !cursor.at('"')) cursor.step();
    field.text += cursor.since(start);
    if (cursor.at_end()) return unclosed(opening, "the file ends before a quote closes it");
    cursor.step();
    if (!cursor.at('"')) break;
    field.text += '"';  // doubled: it belongs to the words
    cursor.step();
  }
  if (cursor.at_end() || cursor.at_line_end() || cursor.at(delimiter)) return std::nullopt;
  if (cursor.line() != opening.line()) {
    return unclosed(
        opening, "the next single quote is on line " + std::to_string(cursor.line()) + " and has more text behind it");
  }
  return Complaint{cursor, "text after a closing quote", "a field that begins with a quote ends with one",
                   "Put the whole field in quotes, and double every quote that belongs to the words (\"\")"};
}

/// The length of a spreadsheet's guard ="0123" that makes up a whole unquoted field, else 0.
std::size_t guard_length(std::string_view rest, char delimiter) {
  if (!rest.starts_with("=\"")) return 0;
  const std::array<char, 4> stops{'"', '\r', '\n', delimiter};
  const std::size_t quote = rest.find_first_of(std::string_view(stops.data(), stops.size()), 2);
  if (quote == std::string_view::npos || rest[quote] != '"') return 0;
  const std::size_t end = quote + 1;
  return end == rest.size() || ends_line(rest[end]) || rest[end] == delimiter ? end : 0;
}

std::optional<Complaint> read_plain(Cursor& cursor, char delimiter, CsvField& field) {
  const Cursor start = cursor;
  for (std::size_t guard = guard_length(cursor.rest(), delimiter); guard > 0; --guard) cursor.step();
  while (!cursor.at_end() && !cursor.at_line_end() && !cursor.at(delimiter)) {
    if (cursor.at('"')) {
      return Complaint{cursor, "a quote in the middle of a field that is not quoted",
                       "only a field that is quoted as a whole may hold quotes",
                       "Put the whole field in quotes, and double every quote that belongs to the words (\"\")"};
    }
    cursor.step();
  }
  field.text = cursor.since(start);
  return std::nullopt;
}

/// The fields of one record; the cursor ends at its line end.
std::optional<Complaint> read_fields(Cursor& cursor, char delimiter, std::vector<CsvField>& fields) {
  for (;; cursor.step()) {
    CsvField& field = fields.emplace_back();
    field.line = cursor.line();
    field.column = cursor.column();
    field.byte = cursor.byte();
    auto complaint = cursor.at('"') ? read_quoted(cursor, delimiter, field) : read_plain(cursor, delimiter, field);
    if (complaint) return complaint;
    if (!cursor.at(delimiter)) return std::nullopt;
  }
}

/// A well-formed record with a NUL in it: tells where, and drops the fields behind it.
std::optional<Complaint> find_nul(const Cursor& start, const Cursor& end, std::vector<CsvField>& fields) {
  const std::size_t nul = end.since(start).find('\0');
  if (nul == std::string_view::npos) return std::nullopt;
  Cursor place = start;
  while (place.byte() < start.byte() + nul) place.step();
  while (fields.back().byte > place.byte()) fields.pop_back();
  return Complaint{place, "a NUL character",
                   "no text holds one: the file is damaged, or in another encoding than was taken",
                   "Export the orders again, as UTF-8"};
}

std::string place_of(const std::string& file, const Cursor& place) {
  return file + ":" + std::to_string(place.line()) + ":" + std::to_string(place.column());
}

}  // namespace

CsvReader::CsvReader(std::string_view text, char delimiter, std::string file_name, std::size_t skip)
    : text_(text), delimiter_(delimiter), file_name_(std::move(file_name)) {
  Cursor cursor(text, 0, 1);
  while (cursor.byte() < std::min(skip, text.size())) cursor.step();
  at_ = cursor.byte();
  line_ = cursor.line();
}

// Behind a quote that is not closed, reading goes on at the next line, so some lines are read twice, but
// never more often: the lines up to the quote that ended the search have an even number of quotes each, and a
// record that begins on such a line ends on it or is at fault there.
std::optional<Result<CsvRecord>> CsvReader::next() {
  Cursor cursor(text_, at_, line_);
  while (cursor.at_line_end()) cursor.step();
  if (cursor.at_end()) return std::nullopt;

  const Cursor start = cursor;
  last_start_ = start.byte();
  CsvRecord record;
  record.number = ++number_;
  auto complaint = read_fields(cursor, delimiter_, record.fields);
  if (complaint) {
    cursor = complaint->place;
  } else {
    complaint = find_nul(start, cursor, record.fields);  // the record's end is known all the same
  }
  cursor.to_next_line();
  at_ = cursor.byte();
  line_ = cursor.line();
  last_line_ = complaint ? complaint->place.line() : start.line();
  if (!complaint) return record;

  Fault fault{complaint->what, place_of(file_name_, complaint->place), complaint->why, complaint->mend};
  const std::size_t column = record.fields.size() - 1;
  if (column < names_.size()) fault.where += ", column \"" + names_[column] + "\"";
  if (start.line() != last_line_) fault.why += "; the row begins on line " + std::to_string(start.line());
  return fault;
}

std::string_view CsvReader::raw() const {
  std::string_view text = text_.substr(last_start_, at_ - last_start_);
  while (!text.empty() && ends_line(text.back())) text.remove_suffix(1);
  return text;
}

std::string csv_field(std::string_view text) {
  // OWASP, CSV injection, and ASVS 5.0, 1.2.10. Some locales read the full-width forms alike (from memory).
  constexpr std::array<std::string_view, 12> dangerous{
      "=", "+", "-", "@", "\t", "\r", "\n", std::string_view("\0", 1), "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
  const bool guard =
      std::any_of(dangerous.begin(), dangerous.end(), [text](std::string_view head) { return text.starts_with(head); });
  std::string plain = harmless(text, true);  // a file may be shown on a terminal, too
  // All delimiters that are sniffed, so that the field reads back the same whichever is taken.
  if (!guard && plain.find_first_of(",;\t\"\r\n") == std::string_view::npos) return plain;
  std::string field = guard ? "\"'" : "\"";
  for (const char c : plain) field.append(c == '"' ? 2 : 1, c);
  return field + '"';
}

}  // namespace ordinatio::inline csv
