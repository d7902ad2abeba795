#include "blanks/blanks.h"

#include <algorithm>
#include <map>

#include "base/harmless.h"
#include "blanks/blank_row.h"
#include "blanks/glass.h"
#include "csv/csv.h"
#include "csv/long_cells.h"
#include "csv/rows.h"
#include "csv/shown.h"
#include "logo/logo.h"

namespace ordinatio::inline blanks {
namespace {

/// A record's id and what became of it.
struct ReadRow {
  std::size_t line = 0;
  CsvField id_field;
  std::string id;
  Result<BlankRow> row;
  bool is_engraved = true;  // else its words speak of safety glass, or leave it open
};

std::vector<ReadRow> read_records(CsvReader& reader, BlankReading& reading, std::vector<std::size_t>& empty) {
  std::vector<ReadRow> rows;
  while (const auto record = reader.next()) {
    if (!record->ok()) {
      rows.push_back({reader.line(), {}, "", record->fault()});
    } else if (is_empty(**record)) {
      empty.push_back(reader.line());
    } else {
      const std::size_t at = std::min(*reading.header.at[0], (*record)->fields.size() - 1);
      const BlankHeader& header = reading.header;
      MaybeFault glass = judge_row(**record, header.names, blank_columns, true, reading.file);
      const bool is_engraved = !glass;
      rows.push_back({(*record)->fields.front().line, (*record)->fields[at], id_of(**record, header),
                      glass ? *std::move(glass) : read_blank_row(**record, reading), is_engraved});
    }
  }
  return rows;
}

/// Holds all rows of an id that is there more than once: which of them is the piece cannot be told.
void hold_doubles(std::vector<ReadRow>& rows, const BlankReading& reading) {
  std::map<std::string, std::vector<std::size_t>> lines;
  for (const ReadRow& row : rows) {
    if (!row.id.empty()) lines[row.id].push_back(row.line);
  }
  for (ReadRow& row : rows) {
    if (!row.row.ok() || lines[row.id].size() == 1) continue;
    row.row = Fault{"the id " + shown(row.id) + " is there more than once",
                    place_of(row.id_field, reading.header.names[*reading.header.at[0]], reading.file),
                    "on " + list_lines(lines[row.id]), "Give each piece an id of its own"};
  }
}

std::vector<std::string> notes_of(const BlankReading& reading, const std::vector<std::size_t>& empty) {
  std::vector<std::string> notes = reading.header.notes;
  if (!empty.empty()) {
    notes.push_back(reading.file + ": nothing stands on " + list_lines(empty) + ": passed over");
  }
  if (!reading.moved.empty()) {
    notes.push_back(
        reading.file + ": outlines on " + list_lines(reading.moved) +
        " did not start at 0,0 and were moved there; chips and places are measured from the outline's own box");
  }
  notes.insert(notes.end(), reading.drawing_notes.begin(), reading.drawing_notes.end());
  return notes;
}

/// The id of a row that is held, if it can stand in a list.
std::string called(const ReadRow& row) {
  return row.id.empty() || steers(row.id) || row.id.size() > name_limit ? "line " + std::to_string(row.line) : row.id;
}

Blanks sorted_out(std::vector<ReadRow> rows) {
  Blanks blanks;
  for (ReadRow& row : rows) {
    if (row.row.ok()) {
      blanks.rows.push_back(*std::move(row.row));
    } else {
      blanks.held.push_back({called(row), row.row.fault()});
      if (!row.is_engraved) blanks.not_engraved.push_back(blanks.held.back());
    }
  }
  return blanks;
}

Fault no_blanks(const std::string& file, const std::string& why) {
  return {"no blanks", file, why, "Write a line of headers, id among them, and a row for every piece"};
}

}  // namespace

bool differs(const BlankRow& row, const Outline& nominal) {
  const Outline& outline = row.blank.outline;
  const auto radius = [](const Outline& of, std::size_t i) { return of.radii.empty() ? 0 : of.radii[i]; };
  if (!row.blank.chips.empty() || !row.blank.kept_clear.empty() || outline.vertices != nominal.vertices) return true;
  for (std::size_t i = 0; i < nominal.vertices.size(); ++i) {
    if (radius(outline, i) != radius(nominal, i)) return true;
  }
  return false;
}

Result<Blanks> parse_blanks(std::string_view text, const std::string& file, double nominal_width, double nominal_height,
                            const Outline& nominal, const ReadDrawing& read_drawing) {
  const Delimiter delimiter = sniff_delimiter(text);
  CsvReader reader(text, delimiter.character, file, delimiter.skip);
  const auto first = reader.next();
  if (!first) return no_blanks(file, "the file is empty");
  if (!first->ok()) return first->fault();
  const auto header = find_blank_columns(**first, file);
  if (!header.ok()) return header.fault();
  reader.name_columns(header->names);

  BlankReading reading{*header, file, nominal_width, nominal_height, nominal, read_drawing, {}, {}};
  std::vector<std::size_t> empty;
  std::vector<ReadRow> rows = read_records(reader, reading, empty);
  if (rows.empty()) return no_blanks(file, "there is no row below the header");
  hold_doubles(rows, reading);
  Blanks blanks = sorted_out(std::move(rows));
  blanks.notes = notes_of(reading, empty);
  return blanks;
}

Result<Blanks> blanks_in(std::string_view bytes, const std::filesystem::path& csv, double nominal_width,
                         double nominal_height, const Outline& nominal) {
  const std::string file = csv.filename().string();
  const auto decoded = decode_text(bytes, "", file);
  if (!decoded.ok()) return decoded.fault();
  const auto read_drawing = [&csv](const std::string& name) { return read_logo(csv.parent_path() / name); };
  auto blanks = parse_blanks(decoded->text, file, nominal_width, nominal_height, nominal, read_drawing);
  if (blanks.ok()) blanks->notes.insert(blanks->notes.begin(), file + ": read as " + decoded->encoding + decoded->told);
  return blanks;
}

Result<Blanks> read_blanks(const std::filesystem::path& csv, double nominal_width, double nominal_height,
                           const Outline& nominal) {
  const auto bytes = read_file(csv);
  if (!bytes.ok()) return bytes.fault();
  return blanks_in(*bytes, csv, nominal_width, nominal_height, nominal);
}

}  // namespace ordinatio::inline blanks
