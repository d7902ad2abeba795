#include "shop/shelf.h"

#include <algorithm>
#include <array>

#include "base/phrase.h"
#include "blanks/blanks.h"
#include "shop/ledger_access.h"
#include "shop/workroom.h"
#include "workshop/toml_edit.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;
namespace {

/// The file, its bytes now, and who else may not change it meanwhile.
struct Shelf {
  const Shop& shop;
  fs::path file;
  std::string bytes;  // empty: it is not there yet
  Ledger* ledger;     // none: the workshop keeps none, or has not begun it
};

/// work: Shelf& → Result<Account>.
template <class Work>
Result<Account> at_shelf(const Shop& shop, const LedgerCall& call, Work&& work) {
  return guarded([&]() -> Result<Account> {
    std::unique_ptr<Ledger> ledger;
    if (has_ledger(shop)) {
      Result<std::unique_ptr<Ledger>> open = open_ledger(shop, call, Ledger::Access::write);
      if (!open.ok()) return open.fault();
      ledger = *std::move(open);
    }
    const fs::path file = shelf_file(shop);
    Result<std::string> bytes = shelf_bytes(shop);
    if (!bytes.ok()) return bytes.fault();
    Shelf shelf{shop, file, *std::move(bytes), ledger.get()};
    return work(shelf);
  });
}

Result<Blanks> blanks_of(const Shelf& shelf, std::string_view bytes) {
  Workroom workroom(shelf.shop);
  const Result<const Station*> station = workroom.station(shelf.shop.default_design);
  if (!station.ok()) return station.fault();
  const LaidDesign& nominal = (*station)->design;
  return blanks_in(bytes, shelf.file, nominal.width, nominal.height, nominal.blank.outline);
}

/// The ids of the rows, of those that are held, too, without one.
std::vector<std::string> ids_of(const Blanks& blanks, const std::string& but) {
  std::vector<std::string> ids;
  for (const BlankRow& row : blanks.rows) ids.push_back(row.blank.id);
  for (const HeldItem& held : blanks.held) ids.push_back(held.id);
  std::erase(ids, but);
  return ids;
}

/// Writes the file anew where it reads as meant. stays: the row of that id is there afterwards.
MaybeFault put_shelf(const Shelf& shelf, const std::string& bytes, const std::string& id, bool stays) {
  const Result<Blanks> now = blanks_of(shelf, bytes);
  if (!now.ok()) return now.fault();
  const auto held = std::ranges::find(now->held, id, &HeldItem::id);
  if (held != now->held.end()) return held->fault;
  const auto is_it = [&](const BlankRow& row) { return row.blank.id == id; };
  const Result<Blanks> before = blanks_of(shelf, shelf.bytes);
  if (std::ranges::any_of(now->rows, is_it) != stays || (before.ok() && ids_of(*before, id) != ids_of(*now, id))) {
    return Fault{"the row cannot be written so that it reads as meant", shelf.file.string(),
                 "another row of the file is broken, or its quotes are", "Mend the rows that are held, then try again"};
  }
  const Result<std::string> there = shelf_bytes(shelf.shop);
  if (!there.ok()) return there.fault();
  if (*there != shelf.bytes) {
    return Fault{"the file was changed meanwhile", shelf.file.string(), "by another program", "Try again"};
  }
  return write_file(shelf.file, bytes);
}

/// Nothing was made on the piece, and it is kept for nobody.
MaybeFault check_free(const Shelf& shelf, const std::string& id) {
  const Result<Blanks> blanks = blanks_of(shelf, shelf.bytes);
  if (!blanks.ok()) return blanks.fault();
  const auto row = std::ranges::find(blanks->rows, id, [](const BlankRow& one) { return one.blank.id; });
  std::string used = row == blanks->rows.end() ? "" : row->used;
  if (shelf.ledger != nullptr) {
    const auto known = shelf.ledger->blank(id);
    if (known && known->state != LedgerBlank::State::free) {
      used = std::string(name_of(known->state));
      if (known->item) used += " by " + shelf.ledger->item(*known->item)->number;
    }
  }
  if (used.empty()) return std::nullopt;
  return Fault{"the piece " + id + " stays as it is", shelf.file.filename().string(), "it is no longer free: " + used,
               "Undo what was done with it first"};
}

/// shop.toml's last table: the file could be read, so no such table stands there.
MaybeFault name_file(const Shop& shop) {
  const std::array<TomlEdit, 1> edits{{{"blanks", "file", toml_text("blanks.csv")}}};
  return edit_toml(shop.folder / "shop.toml", edits);
}

std::string id_among(const BlankCells& cells) {
  const auto id = std::ranges::find(cells, "id", &BlankCell::column);
  return id == cells.end() ? "" : id->text;
}

Result<Account> add_row(const Shelf& shelf, const BlankCells& cells) {
  const std::string id = id_among(cells), file = shelf.file.filename().string();
  const Result<std::string> bytes = with_row_added(shelf.bytes, cells, file);
  const Result<std::string> same = bytes.ok() ? bytes : with_row_changed(shelf.bytes, id, cells, file);
  const bool is_there = !bytes.ok() && same.ok() && *same == shelf.bytes;  // a run that was cut off has come so far
  if (!bytes.ok() && !is_there) return bytes.fault();
  if (!is_there) {
    if (auto fault = put_shelf(shelf, *bytes, id, true)) return *std::move(fault);
  }
  Account account;
  account.told.push_back("The piece " + in_quotes(id) + " stands in " + file +
                         (is_there ? " already, just so" : " now"));
  if (shelf.shop.blanks.file.empty()) {
    if (auto fault = name_file(shelf.shop)) return *std::move(fault);
    account.warnings.emplace_back("it is the first: from now on items are laid on measured pieces alone");
  }
  return account;
}

}  // namespace

fs::path shelf_file(const Shop& shop) {
  return shop.folder / (shop.blanks.file.empty() ? "blanks.csv" : shop.blanks.file);
}

Result<std::string> shelf_bytes(const Shop& shop) {
  const fs::path file = shelf_file(shop);
  std::error_code error;
  return fs::exists(file, error) ? read_file(file) : Result<std::string>(std::string());
}

Result<Account> run_add_blank(const Shop& shop, const LedgerCall& call, const BlankCells& cells) {
  return at_shelf(shop, call, [&](const Shelf& shelf) { return add_row(shelf, cells); });
}

Result<Account> run_change_blank(const Shop& shop, const LedgerCall& call, const std::string& id,
                                 const BlankCells& cells) {
  return at_shelf(shop, call, [&](const Shelf& shelf) -> Result<Account> {
    const std::string file = shelf.file.filename().string();
    const Result<std::string> bytes = with_row_changed(shelf.bytes, id, cells, file);
    if (!bytes.ok()) return bytes.fault();
    Account account;
    account.told.push_back("The piece " + in_quotes(id) + " is measured anew in " + file);
    if (*bytes == shelf.bytes) return account;
    if (auto fault = check_free(shelf, id)) return *std::move(fault);
    if (auto fault = put_shelf(shelf, *bytes, id, true)) return *std::move(fault);
    return account;
  });
}

Result<Account> run_remove_blank(const Shop& shop, const LedgerCall& call, const std::string& id) {
  return at_shelf(shop, call, [&](const Shelf& shelf) -> Result<Account> {
    const std::string file = shelf.file.filename().string();
    const Result<std::string> bytes = with_row_removed(shelf.bytes, id, file);
    if (!bytes.ok()) return bytes.fault();
    if (auto fault = check_free(shelf, id)) return *std::move(fault);
    if (!blanks_of(shelf, *bytes).ok()) {
      return Fault{"the piece " + id + " stays", file, "it is the only one, and a file of pieces has one at least",
                   "Measure another first, or take [blanks] out of shop.toml"};
    }
    if (auto fault = put_shelf(shelf, *bytes, id, false)) return *std::move(fault);
    Account account;
    account.told.push_back("The piece " + in_quotes(id) + " is taken out of " + file);
    return account;
  });
}

}  // namespace ordinatio::inline shop
