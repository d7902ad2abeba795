#include <algorithm>

#include "blanks/glass.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

/// The place of the column that is to blame; of the material where the file has no such column.
std::string where_of(const std::string& column, std::span<const PieceCell> cells, const CsvRecord& record,
                     const std::vector<std::string>& headers, const std::string& file) {
  for (const std::string_view name : {std::string_view(column), std::string_view("material"), std::string_view("id")}) {
    const auto cell = std::ranges::find(cells, name, &PieceCell::column);
    if (cell == cells.end()) continue;
    const auto at = static_cast<std::size_t>(cell - cells.begin());
    return place_of(record.fields[at], at < headers.size() ? headers[at] : "", file);
  }
  return file + ":" + std::to_string(record.fields.front().line);
}

}  // namespace

MaybeFault judge_row(const CsvRecord& record, const std::vector<std::string>& headers,
                     std::span<const std::string_view> known, bool any_case, const std::string& file) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < record.fields.size(); ++i) {
    const std::string header = i < headers.size() ? headers[i] : "";
    names.push_back(any_case ? lower_case(header) : header);
  }
  std::vector<PieceCell> cells;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool is_own = std::ranges::find(known, names[i]) == known.end();
    cells.push_back({names[i], trimmed(record.fields[i].text), is_own});
  }
  auto found = judge_glass(cells);
  if (!found) return std::nullopt;
  found->fault.where = where_of(found->column, cells, record, headers, file);
  return std::move(found->fault);
}

}  // namespace ordinatio::inline blanks
