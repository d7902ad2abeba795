#include "shop/piece_glass.h"

#include <algorithm>

#include "bed/item_number.h"
#include "shop/csv_rows.h"
#include "shop/order_rows.h"
#include "shop/piece_choice.h"

namespace ordinatio {
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

MaybeFault judge_design(const Design& design) {
  std::vector<PieceCell> cells{{"material", design.material}};
  for (const KeptClear& thing : design.kept_clear) cells.push_back({"keep_clear", thing.name});
  auto found = judge_glass(cells);
  if (!found || found->is_question) return std::nullopt;
  found->fault.where = "design " + design.name + ", " + found->column;
  return std::move(found->fault);
}

std::map<std::string, Fault> pieces_not_engraved(Workroom& workroom) {
  Account unsaid;  // how they were read is the day's news
  const Result<std::optional<Blanks>> pieces = read_pieces(workroom, {}, unsaid);
  std::map<std::string, Fault> faults;
  if (!pieces || !*pieces) return faults;
  for (const HeldItem& held : (*pieces)->not_engraved) faults.emplace(held.id, held.fault);
  return faults;
}

MaybeFault check_lying(const std::map<std::string, Fault>& not_engraved, const std::string& piece,
                       const std::string& item) {
  const auto found = not_engraved.find(piece);
  if (piece.empty() || found == not_engraved.end()) return std::nullopt;
  Fault fault = found->second;
  fault.where = "blank " + piece + " of item " + item + ", " + fault.where;
  fault.mend = "Take it off the bed: ordinatio hold " + with_check(item) + " --reason glass. " + fault.mend;
  return fault;
}

}  // namespace ordinatio
