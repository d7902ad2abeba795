// In: the bytes of a file of delimited text (RFC 4180), in whatever encoding.
// Out: records of fields, each with its place; what is malformed as a Fault that names it.
// Never: knows what a column means.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"

namespace ordinatio::inline csv {

struct CsvField {
  std::string text;
  std::size_t line = 1, column = 1;  // where it starts in the decoded text, from 1; columns count characters
  std::size_t byte = 0;              // offset in the decoded UTF-8 text
  bool quoted = false;
};
struct CsvRecord {
  std::size_t number = 1;  // from 1, empty lines not counted
  std::vector<CsvField> fields;
};
/// Reads records one at a time; what is malformed is a Fault with its place, and the next call goes on at the
/// next line.
class CsvReader {
 public:
  /// text: UTF-8 without BOM, must outlive the reader. skip: bytes of whole lines at its head to pass over
  /// (a `sep=` line); lines and offsets count from the head all the same.
  CsvReader(std::string_view text, char delimiter, std::string file_name, std::size_t skip = 0);
  /// From now on a Fault names the column that it lies in.
  void name_columns(std::vector<std::string> names) { names_ = std::move(names); }
  /// The next record, a Fault for a malformed one, or nothing at the end.
  std::optional<Result<CsvRecord>> next();
  /// Where the record that came last begins, or where the Fault that came last lies.
  [[nodiscard]] std::size_t line() const { return last_line_; }
  /// The record, or what was read of the malformed one, as it stands in the text, its line end left out.
  [[nodiscard]] std::string_view raw() const;

 private:
  std::string_view text_;
  char delimiter_;
  std::string file_name_;
  std::vector<std::string> names_;
  std::size_t at_ = 0, line_ = 1, number_ = 0, last_line_ = 1, last_start_ = 0;
};
/// One CSV field as it is written: quoted where needed, and made harmless where a spreadsheet would run it
/// (OWASP, CSV injection; CWE-1236).
std::string csv_field(std::string_view text);

struct DecodedText {
  std::string text;      // UTF-8 without BOM
  std::string encoding;  // what was taken: "UTF-8", "UTF-8 with BOM", "UTF-16LE", "UTF-16BE", "windows-1252", …
  std::string told;      // how that was told, in words that follow it
  std::string look_at;   // what a person should look at where it is a guess; else empty
  /// Words of the text that may be others, each with a Fault that lacks its place. See words_beyond_ascii.
  std::map<std::string, Fault> doubtful;
};

// ---- decoding.cpp ----
/// UTF-8 where it is valid, UTF-16 by its BOM, else a guess among encodings of one byte a letter, by the words that they
/// give; `encoding` forces one ("" sniffs). Text that is mostly good UTF-8 stays UTF-8. What cannot be decoded becomes
/// U+FFFD, for the caller to hold, as are the doubtful words.
/// Faults: a BOM that contradicts `encoding`, an encoding that ICU does not know, what is no text at all.
Result<DecodedText> decode_text(std::string_view bytes, std::string_view encoding, const std::string& file_name);
/// The delimiter named by a leading `sep=` line, else the one of , ; and tab that parts the first records
/// most evenly.
struct Delimiter {
  char character = ',';
  std::size_t skip = 0;  // bytes of a `sep=` line to pass over
};

// ---- delimiter.cpp ----
Delimiter sniff_delimiter(std::string_view text);

}  // namespace ordinatio::inline csv
