#include "blanks/row_edit.h"

#include <algorithm>

#include "blanks/blank_row.h"
#include "csv/csv.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

constexpr std::string_view utf8_sign = "\xEF\xBB\xBF";

/// A record and where it stands in the text, its line end left out.
struct PlacedRecord {
  CsvRecord record;
  std::size_t begin = 0, end = 0;
};

/// What is to stand in place of a part of the text.
struct TextEdit {
  std::size_t begin = 0, end = 0;
  std::string text;
};

class BlankFile {
 public:
  /// Faults: as of with_row_added.
  static Result<BlankFile> read(std::string_view bytes, const std::string& file);

  [[nodiscard]] bool is_blank() const { return records_.empty(); }
  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
  /// Those of the id.
  [[nodiscard]] std::vector<const PlacedRecord*> rows_of(std::string_view id) const;
  [[nodiscard]] std::string row_of(const BlankCells& cells) const;
  /// Columns that are missing, and not for nothing.
  void add_columns(const BlankCells& cells);
  void append(const BlankCells& cells);
  void change(const PlacedRecord& row, const BlankCells& cells);
  void remove(const PlacedRecord& row);
  /// The file's bytes with all of that done.
  [[nodiscard]] std::string edited() const;

 private:
  [[nodiscard]] std::optional<std::size_t> column(const std::string& name) const;
  [[nodiscard]] std::string field(std::string_view text) const;
  void note_habits();
  [[nodiscard]] std::size_t end_of_field(const PlacedRecord& row, std::size_t field) const {
    return field + 1 < row.record.fields.size() ? row.record.fields[field + 1].byte - 1 : row.end;
  }

  std::string_view sign_, text_;  // the mark of UTF-8 at the file's head, and what follows it
  char delimiter_ = ',';
  std::string line_end_ = "\n";
  bool quotes_all_ = false;
  std::vector<std::string> names_;     // of the columns, those that are added among them
  std::size_t width_ = 0;              // of the header as it was
  std::vector<PlacedRecord> records_;  // the header first; those that cannot be read are left out
  std::vector<TextEdit> edits_;        // none within another
};

Result<BlankFile> BlankFile::read(std::string_view bytes, const std::string& file) {
  BlankFile blanks;
  if (bytes.starts_with(utf8_sign)) blanks.sign_ = bytes.substr(0, utf8_sign.size());
  blanks.text_ = bytes.substr(blanks.sign_.size());
  if (trimmed(blanks.text_).empty()) return blanks;
  const auto decoded = decode_text(bytes, "", file);
  if (!decoded.ok()) return decoded.fault();
  if (decoded->text != blanks.text_) {
    return Fault{"no row can be written into this file", file, "it is in " + decoded->encoding + ", not in UTF-8",
                 "Save it as UTF-8 once; then this works"};
  }
  const Delimiter delimiter = sniff_delimiter(blanks.text_);
  blanks.delimiter_ = delimiter.character;
  CsvReader reader(blanks.text_, delimiter.character, file, delimiter.skip);
  while (auto record = reader.next()) {
    if (!record->ok() && blanks.records_.empty()) return record->fault();
    if (!record->ok()) continue;
    const auto begin = static_cast<std::size_t>(reader.raw().data() - blanks.text_.data());
    blanks.records_.push_back({**std::move(record), begin, begin + reader.raw().size()});
  }
  if (blanks.records_.empty()) return blanks;
  auto header = find_blank_columns(blanks.records_.front().record, file);
  if (!header.ok()) return header.fault();
  blanks.names_ = std::move(header->names);
  blanks.width_ = blanks.names_.size();
  blanks.note_habits();
  return blanks;
}

void BlankFile::note_habits() {
  const PlacedRecord& header = records_.front();
  const std::string_view behind = text_.substr(header.end);
  if (behind.starts_with('\r')) line_end_ = behind.starts_with("\r\n") ? "\r\n" : "\r";
  quotes_all_ = std::ranges::all_of(header.record.fields, &CsvField::quoted);
}

std::optional<std::size_t> BlankFile::column(const std::string& name) const {
  const auto same = [&](const std::string& other) { return lower_case(other) == lower_case(name); };
  const auto found = std::ranges::find_if(names_, same);
  return found == names_.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - names_.begin()));
}

std::string BlankFile::field(std::string_view text) const {
  std::string written = csv_field(text);
  const bool is_quoted = written.starts_with('"');
  const bool wants_quotes = quotes_all_ || written.find(delimiter_) != std::string::npos;
  return wants_quotes && !is_quoted ? '"' + written + '"' : written;
}

std::vector<const PlacedRecord*> BlankFile::rows_of(std::string_view id) const {
  std::vector<const PlacedRecord*> rows;
  const auto at = column("id");
  for (std::size_t i = 1; at && i < records_.size(); ++i) {
    const std::vector<CsvField>& fields = records_[i].record.fields;
    if (*at < fields.size() && trimmed(fields[*at].text) == trimmed(id)) rows.push_back(&records_[i]);
  }
  return rows;
}

std::string BlankFile::row_of(const BlankCells& cells) const {
  std::string row;
  for (std::size_t i = 0; i < names_.size(); ++i) {
    const auto cell = std::ranges::find_if(cells, [&](const BlankCell& one) { return column(one.column) == i; });
    if (i > 0) row += delimiter_;
    row += field(cell == cells.end() ? std::string_view() : std::string_view(cell->text));
  }
  return row;
}

void BlankFile::add_columns(const BlankCells& cells) {
  std::string header, empty;
  for (const BlankCell& cell : cells) {
    if (cell.text.empty() || column(cell.column)) continue;
    header += delimiter_ + field(cell.column);
    empty += delimiter_ + field("");
    names_.push_back(cell.column);
  }
  if (header.empty()) return;
  edits_.push_back({records_.front().end, records_.front().end, header});
  for (std::size_t i = 1; i < records_.size(); ++i) {  // a row of another width is held as it is, or is an id alone
    if (records_[i].record.fields.size() == width_) edits_.push_back({records_[i].end, records_[i].end, empty});
  }
}

void BlankFile::append(const BlankCells& cells) {
  const bool is_ended = text_.ends_with('\n') || text_.ends_with('\r');
  edits_.push_back({text_.size(), text_.size(), is_ended ? row_of(cells) + line_end_ : line_end_ + row_of(cells)});
}

void BlankFile::change(const PlacedRecord& row, const BlankCells& cells) {
  std::vector<CsvField> fields = row.record.fields;
  std::string behind;  // of a row that is an id alone, and of columns that are added
  std::erase_if(edits_, [&](const TextEdit& edit) { return edit.begin == row.end; });
  for (std::size_t i = 0; i < names_.size(); ++i) {
    const auto cell = std::ranges::find_if(cells, [&](const BlankCell& one) { return column(one.column) == i; });
    const bool is_there = i < fields.size();
    if (!is_there)
      behind += delimiter_ + field(cell == cells.end() ? std::string_view() : std::string_view(cell->text));
    if (is_there && cell != cells.end() && fields[i].text != cell->text)
      edits_.push_back({fields[i].byte, end_of_field(row, i), field(cell->text)});
  }
  if (!behind.empty()) edits_.push_back({row.end, row.end, behind});
}

void BlankFile::remove(const PlacedRecord& row) {
  std::size_t begin = row.begin, end = row.end;
  if (end == text_.size()) {  // the last line, without an end: that of the line before it goes
    begin -= begin >= 2 && text_.substr(begin - 2, 2) == "\r\n" ? 2 : 1;
  } else {
    end += text_.substr(end).starts_with("\r\n") ? 2 : 1;
  }
  edits_.push_back({begin, end, ""});
}

std::string BlankFile::edited() const {
  std::vector<TextEdit> edits = edits_;
  std::ranges::stable_sort(edits, {}, &TextEdit::begin);
  std::string text(sign_);
  std::size_t at = 0;
  for (const TextEdit& edit : edits) {
    text += text_.substr(at, edit.begin - at);
    text += edit.text;
    at = edit.end;
  }
  return text.append(text_.substr(at));
}

std::string id_in(const BlankCells& cells) {
  const auto id = std::ranges::find(cells, "id", &BlankCell::column);
  return id == cells.end() ? std::string() : std::string(trimmed(id->text));
}

/// A file of one piece.
std::string first_rows(std::string_view sign, const BlankCells& cells) {
  std::string header, row;
  for (const BlankCell& cell : cells) {
    if (cell.text.empty()) continue;
    header += (header.empty() ? "" : ",") + csv_field(cell.column);
    row += (row.empty() ? "" : ",") + csv_field(cell.text);
  }
  return std::string(sign) + header + "\n" + row + "\n";
}

/// The one row of the id. Faults: none, several.
Result<const PlacedRecord*> row_called(const BlankFile& blanks, const std::string& id, const std::string& file) {
  const auto rows = blanks.rows_of(id);
  if (rows.size() == 1) return rows.front();
  return Fault{rows.empty() ? "no row has the id " + shown(id) : "the id " + shown(id) + " is there more than once",
               file, "", rows.empty() ? "Look at the id in the file" : "Give each piece an id of its own"};
}

}  // namespace

Result<std::string> with_row_added(std::string_view bytes, const BlankCells& cells, const std::string& file) {
  const std::string id = id_in(cells);
  if (id.empty()) {
    return Fault{"the piece has no id", file, "it could not be told from others", "Give it what you write on it"};
  }
  Result<BlankFile> blanks = BlankFile::read(bytes, file);
  if (!blanks.ok()) return blanks.fault();
  if (blanks->is_blank()) return first_rows(bytes.starts_with(utf8_sign) ? utf8_sign : "", cells);
  if (const auto rows = blanks->rows_of(id); !rows.empty()) {
    return Fault{"the id " + shown(id) + " is there already",
                 file + ":" + std::to_string(rows.front()->record.fields.front().line), "a piece has it",
                 "Give the piece an id of its own"};
  }
  blanks->add_columns(cells);
  blanks->append(cells);
  return blanks->edited();
}

Result<std::string> with_row_changed(std::string_view bytes, const std::string& id, const BlankCells& cells,
                                     const std::string& file) {
  Result<BlankFile> blanks = BlankFile::read(bytes, file);
  if (!blanks.ok()) return blanks.fault();
  const auto row = row_called(*blanks, id, file);
  if (!row.ok()) return row.fault();
  blanks->add_columns(cells);
  blanks->change(**row, cells);
  return blanks->edited();
}

Result<BlankCells> cells_of_row(std::string_view bytes, const std::string& id, const std::string& file) {
  const Result<BlankFile> blanks = BlankFile::read(bytes, file);
  if (!blanks.ok()) return blanks.fault();
  const auto row = row_called(*blanks, id, file);
  if (!row.ok()) return row.fault();
  BlankCells cells;
  const std::vector<CsvField>& fields = (*row)->record.fields;
  for (std::size_t i = 0; i < std::min(fields.size(), blanks->names().size()); ++i)
    cells.push_back({lower_case(blanks->names()[i]), std::string(trimmed(fields[i].text))});
  return cells;
}

Result<std::string> with_row_removed(std::string_view bytes, const std::string& id, const std::string& file) {
  Result<BlankFile> blanks = BlankFile::read(bytes, file);
  if (!blanks.ok()) return blanks.fault();
  const auto row = row_called(*blanks, id, file);
  if (!row.ok()) return row.fault();
  blanks->remove(**row);
  return blanks->edited();
}

}  // namespace ordinatio::inline blanks
