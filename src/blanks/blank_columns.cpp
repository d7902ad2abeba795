#include <algorithm>

#include "blanks/blank_row.h"
#include "csv/csv.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

std::string unknown(const std::string& name, const std::string& file) {
  std::string note = file + ": column " + shown(name) + " is not known and was passed over";
  if (const auto nearest = nearest_word(lower_case(name), blank_columns))
    note += "; the nearest is \"" + *nearest + "\"";
  return note;
}

}  // namespace

Result<BlankHeader> find_blank_columns(const CsvRecord& record, const std::string& file) {
  BlankHeader header;
  const std::string where = file + ":" + std::to_string(record.fields.front().line);
  for (const CsvField& field : record.fields) {
    const std::size_t column = header.names.size();
    header.names.emplace_back(trimmed(field.text));
    const std::string& name = header.names.back();
    const auto known = std::ranges::find(blank_columns, lower_case(name));
    if (known == blank_columns.end()) {
      if (!name.empty()) header.notes.push_back(unknown(name, file));
      continue;
    }
    auto& at = header.at[static_cast<std::size_t>(known - blank_columns.begin())];
    if (at) {
      return Fault{"the column " + shown(name) + " is there twice", where,
                   "as columns " + std::to_string(*at + 1) + " and " + std::to_string(column + 1),
                   "Give one of them another header"};
    }
    at = column;
  }
  if (header.at[0]) return header;
  return Fault{"no column \"id\"", where, "every piece has an id by which it is found again",
               "Write the headers in the first line, id among them; the id is what you wrote on the piece"};
}

}  // namespace ordinatio::inline blanks
