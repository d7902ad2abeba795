#include "csv/rows.h"

#include <algorithm>

#include "base/phrase.h"
#include "csv/csv.h"
#include "csv/shown.h"

namespace ordinatio::inline csv {

std::string place_of(const CsvField& field, const std::string& header, const std::string& file) {
  return file + ":" + std::to_string(field.line) + ":" + std::to_string(field.column) + ", column \"" + header + "\"";
}

MaybeFault check_width(const CsvRecord& record, const std::vector<std::string>& headers, const std::string& file) {
  const std::size_t fields = record.fields.size(), wanted = headers.size();
  if (fields == wanted) return std::nullopt;
  const CsvField &first = record.fields.front(), &last = record.fields.back();
  const auto line_ends = std::count(last.text.begin(), last.text.end(), '\n');
  const std::size_t last_line = last.line + static_cast<std::size_t>(line_ends);
  Fault fault{"the row has " + counted(fields, "field"), file + ":" + std::to_string(first.line),
              "the header has " + std::to_string(wanted), ""};
  if (last_line > first.line) fault.why += "; the row runs to line " + std::to_string(last_line);
  if (fields < wanted) {
    fault.where += ", column \"" + headers[fields] + "\"";
    fault.why += "; a field is missing, or a quote is closed too late";
    fault.mend = "Give the row every field, empty ones too";
  } else {
    fault.where += ", behind column \"" + headers.back() + "\"";
    fault.why += "; a text may hold the delimiter";
    fault.mend = "Put quotes around a text that holds the delimiter";
  }
  return fault;
}

bool is_empty(const CsvRecord& record) {
  return std::all_of(record.fields.begin(), record.fields.end(),
                     [](const CsvField& field) { return trimmed(field.text).empty(); });
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

}  // namespace ordinatio::inline csv
