#include "shop/measuring.h"

#include <algorithm>

namespace ordinatio::inline shop {

Result<BlankRow> measured_piece(const Shop& shop, const Design& nominal, std::string_view bytes, const std::string& id,
                                const BlankCells& cells) {
  const std::filesystem::path file = shelf_file(shop);
  const std::string name = file.filename().string();
  const Result<std::string> with_row =
      id.empty() ? with_row_added(bytes, cells, name) : with_row_changed(bytes, id, cells, name);
  if (!with_row.ok()) return with_row.fault();
  Result<Blanks> blanks = blanks_in(*with_row, file, nominal.width, nominal.height, nominal.blank.outline);
  if (!blanks.ok()) return blanks.fault();
  const auto named = std::ranges::find(cells, "id", &BlankCell::column);
  const std::string& wanted = id.empty() && named != cells.end() ? named->text : id;
  const auto row = std::ranges::find(blanks->rows, wanted, [](const BlankRow& one) { return one.blank.id; });
  if (row != blanks->rows.end()) return std::move(*row);
  const auto held = std::ranges::find(blanks->held, wanted, &HeldItem::id);
  if (held != blanks->held.end()) return held->fault;
  return Fault{"the piece cannot be read back", name, "another row of the file is broken", "Mend the file by hand"};
}

}  // namespace ordinatio::inline shop
