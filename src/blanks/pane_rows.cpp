#include <algorithm>
#include <array>
#include <set>

#include "base/harmless.h"
#include "blanks/glass.h"
#include "blanks/panes.h"
#include "csv/csv.h"
#include "csv/long_cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

constexpr std::array<std::string_view, 9> column_names{"id",    "width",         "height", "thickness", "material",
                                                       "glass", "factory_edges", "keep",   "note"};
constexpr std::size_t columns_wanted = 3;  // the first of them

/// Which field of a record each of column_names is.
struct PaneHeader {
  std::vector<std::string> names;
  std::array<std::optional<std::size_t>, column_names.size()> fields;
};

std::optional<std::size_t> column_called(std::string_view name) {
  const auto found = std::find(column_names.begin(), column_names.end(), name);
  if (found == column_names.end()) return std::nullopt;
  return static_cast<std::size_t>(found - column_names.begin());
}

Result<PaneHeader> read_header(const CsvRecord& record, const std::string& file, std::vector<std::string>& notes) {
  PaneHeader header;
  const std::string where = file + ":" + std::to_string(record.fields.front().line);
  for (const CsvField& field : record.fields) {
    const std::string name(trimmed(field.text));
    header.names.push_back(name);
    if (const auto column = column_called(name)) {
      if (header.fields[*column])
        return Fault{"the column " + shown(name) + " is there twice", where, "", "Take one out"};
      header.fields[*column] = header.names.size() - 1;
    } else if (!name.empty()) {
      const auto nearest = nearest_word(name, column_names);
      notes.push_back(file + ": column " + shown(name) + " is not used" +
                      (nearest ? "; did you mean " + *nearest + "?" : ""));
    }
  }
  for (std::size_t column = 0; column < columns_wanted; ++column) {
    if (header.fields[column]) continue;
    return Fault{"no column " + shown(column_names[column]), where, "a pane has an id, a width and a height",
                 "Write these three as headers, all in small letters"};
  }
  return header;
}

/// One record on its way to a pane.
class PaneReading {
 public:
  PaneReading(const CsvRecord& record, const PaneHeader& header, const std::string& file)
      : record_(record), header_(header), file_(file) {}
  MaybeFault read(PaneRow& row) const;

 private:
  [[nodiscard]] std::string_view cell(std::string_view column) const;
  [[nodiscard]] Fault placed(Fault fault, std::string_view column) const;
  MaybeFault check_record() const;
  MaybeFault read_id(PaneRow& row) const;
  MaybeFault read_length(std::string_view column, double most, double& length) const;
  template <class Value>
  MaybeFault take(Result<Value> value, std::string_view column, Value& into) const;

  const CsvRecord& record_;
  const PaneHeader& header_;
  const std::string& file_;
};

std::string_view PaneReading::cell(std::string_view column) const {
  const auto field = header_.fields[*column_called(column)];
  return field ? trimmed(record_.fields[*field].text) : std::string_view();
}

Fault PaneReading::placed(Fault fault, std::string_view column) const {
  const CsvField& field = record_.fields[header_.fields[*column_called(column)].value_or(0)];
  fault.where = file_ + ":" + std::to_string(field.line) + ":" + std::to_string(field.column) + ", column \"" +
                std::string(column) + "\"";
  return fault;
}

MaybeFault PaneReading::check_record() const {
  const std::string where = file_ + ":" + std::to_string(record_.fields.front().line);
  if (record_.fields.size() != header_.names.size()) {
    return Fault{"the row has " + std::to_string(record_.fields.size()) + " fields", where,
                 "the header has " + std::to_string(header_.names.size()),
                 "Give the row every field, empty ones too, and quote what holds the delimiter"};
  }
  for (const CsvField& field : record_.fields) {
    if (field.text.find("\uFFFD") == std::string::npos) continue;
    return Fault{"a character is lost in " + shown(field.text), where + ":" + std::to_string(field.column),
                 "its bytes mean nothing in the encoding that was taken", "Save the file as UTF-8"};
  }
  return std::nullopt;
}

MaybeFault PaneReading::read_id(PaneRow& row) const {
  row.pane.id = cell("id");
  if (row.pane.id.empty()) {
    return placed({"no id", "", "the pane could not be told from others", "Write what is chalked on it"}, "id");
  }
  if (auto fault = cell_too_long(row.pane.id, "id", name_limit)) {
    row.pane.id.clear();  // the line names it
    return placed(*std::move(fault), "id");
  }
  if (steers(row.pane.id)) {
    return placed({"the id holds a line end or a control character", "", "it stands on labels", "Write it in one line"},
                  "id");
  }
  return std::nullopt;
}

MaybeFault PaneReading::read_length(std::string_view column, double most, double& length) const {
  const std::string_view text = cell(column);
  const std::optional<double> number = parse_number(text);
  if (number && *number > 0 && *number <= most) {
    length = *number;
    return std::nullopt;
  }
  return placed(
      {text.empty() ? "no " + std::string(column) : "the " + std::string(column) + " " + shown(text) + " is none", "",
       "it is a number of millimetres, more than 0 and at most " + mm_text(most),
       "Write it in figures, with a point before decimals and without its unit"},
      column);
}

template <class Value>
MaybeFault PaneReading::take(Result<Value> value, std::string_view column, Value& into) const {
  if (!value.ok()) return placed(value.fault(), column);
  into = std::move(*value);
  return std::nullopt;
}

MaybeFault PaneReading::read(PaneRow& row) const {
  if (auto fault = check_record()) return fault;
  if (auto fault = read_id(row)) return fault;
  if (auto fault = judge_row(record_, header_.names, column_names, false, file_)) return fault;
  if (auto fault = read_length("width", longest_pane_side, row.pane.width)) return fault;
  if (auto fault = read_length("height", longest_pane_side, row.pane.height)) return fault;
  if (!cell("thickness").empty()) {
    if (auto fault = read_length("thickness", thickest_pane, row.thickness.emplace())) return fault;
  }
  if (auto fault = take(read_sides(cell("factory_edges")), "factory_edges", row.pane.factory)) return fault;
  if (auto fault = take(read_pane_things(cell("keep")), "keep", row.pane.things)) return fault;
  row.material = cell("material");
  row.note = cell("note");
  row.glass = lower_case(cell("glass"));
  return std::nullopt;
}

/// Reads the rows below the header; ids that come again are held, since their pieces would share their names.
PaneRows read_rows(CsvReader& reader, const PaneHeader& header, const std::string& file) {
  PaneRows rows;
  std::set<std::string> ids;
  while (const auto record = reader.next()) {
    const std::string line = "line " + std::to_string(reader.line());
    if (!record->ok()) {
      rows.held.push_back({line, record->fault()});
    } else if (!is_empty(**record)) {
      PaneRow row;
      row.source = file + ":" + std::to_string(reader.line());
      MaybeFault fault = PaneReading(**record, header, file).read(row);
      if (!fault && !ids.insert(row.pane.id).second) {
        fault = Fault{"the pane " + shown(row.pane.id) + " is there twice", row.source,
                      "its pieces would share their names", "Give it another id"};
      }
      if (fault) {
        rows.held.push_back({row.pane.id.empty() ? line : row.pane.id, *fault});
      } else {
        rows.panes.push_back(std::move(row));
      }
    }
  }
  return rows;
}

}  // namespace

Result<PaneRows> read_panes(const std::filesystem::path& csv) {
  const auto bytes = read_file(csv);
  if (!bytes.ok()) return bytes.fault();
  const std::string file = csv.filename().string();
  const auto decoded = decode_text(*bytes, "", file);
  if (!decoded.ok()) return decoded.fault();
  const Delimiter delimiter = sniff_delimiter(decoded->text);
  CsvReader reader(decoded->text, delimiter.character, file, delimiter.skip);
  const auto first = reader.next();
  if (!first) return Fault{"no panes", file, "the file is empty", "Write a header and a row a pane"};
  if (!first->ok()) return first->fault();
  std::vector<std::string> notes;
  const auto header = read_header(**first, file, notes);
  if (!header.ok()) return header.fault();
  reader.name_columns(header->names);
  PaneRows rows = read_rows(reader, *header, file);
  if (rows.panes.empty() && rows.held.empty()) {
    return Fault{"no panes", file, "there is no row below the header", "Write a row a pane"};
  }
  if (decoded->encoding != "UTF-8") notes.push_back(file + ": read as " + decoded->encoding + decoded->told);
  rows.notes = std::move(notes);
  return rows;
}

}  // namespace ordinatio::inline blanks
