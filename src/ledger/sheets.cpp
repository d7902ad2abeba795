#include <algorithm>

#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/named.h"
#include "ledger/place_text.h"
#include "ledger/rows.h"

namespace ordinatio::inline ledger {
namespace {

const std::string sheet_columns = "SELECT id, name, kind, of_sheet, date, folder, state = 'written', stale FROM sheet ";
const std::string placement_columns =
    "SELECT id, item, sheet, pocket, blank, hash, state, reason, drawn FROM placement ";

LedgerPlacement placement_in(const Statement& row) {
  return {row.number(0),
          row.number(1),
          static_cast<int>(row.number(2)),
          static_cast<int>(row.number(3)),
          row.text(4),
          row.text(5),
          named<LedgerPlacement::State>(row.text(6), 4),
          row.text(7),
          row.number(8) != 0};
}

std::vector<LedgerSheet> sheets_in(Database& database, Statement& rows) {
  std::vector<LedgerSheet> all;
  while (rows.step()) {
    LedgerSheet sheet{static_cast<int>(rows.number(0)),
                      rows.text(1),
                      named<LedgerSheet::Kind>(rows.text(2), 4),
                      {},
                      rows.text(4),
                      rows.text(5),
                      rows.number(6) != 0,
                      {},
                      rows.text(7)};
    if (!rows.is_null(3)) sheet.of = static_cast<int>(rows.number(3));
    all.push_back(std::move(sheet));
  }
  rows.clear();
  for (LedgerSheet& sheet : all) {
    Statement& files = database.query("SELECT name, checksum FROM sheet_file WHERE sheet = ?", sheet.number);
    while (files.step()) sheet.files.emplace(files.text(0), files.text(1));
    files.clear();
  }
  return all;
}

std::optional<LedgerSheet> only(std::vector<LedgerSheet> sheets) {
  return sheets.empty() ? std::nullopt : std::optional(std::move(sheets.front()));
}

}  // namespace

std::string place_text(const std::string& sheet, int pocket, const std::string& blank) {
  return sheet + (pocket == 0 ? ", laid by hand" : ", pocket " + std::to_string(pocket)) +
         (blank.empty() ? "" : ", blank " + blank);
}

bool is_aside(const std::string& file) { return file.find('/') != std::string::npos; }

int Ledger::next_sheet_number() {
  return static_cast<int>(*database_->number("SELECT coalesce(max(id), 0) + 1 FROM sheet"));
}

std::vector<LedgerSheet> Ledger::sheets() {
  return sheets_in(*database_, database_->query(sheet_columns + "ORDER BY id"));
}
std::vector<LedgerSheet> Ledger::planned_sheets() {
  return sheets_in(*database_, database_->query(sheet_columns + "WHERE state = 'planned' ORDER BY id"));
}
std::optional<LedgerSheet> Ledger::sheet(int number) {
  return only(sheets_in(*database_, database_->query(sheet_columns + "WHERE id = ?", number)));
}
std::optional<LedgerSheet> Ledger::sheet_named(const std::string& name) {
  return only(sheets_in(*database_, database_->query(sheet_columns + "WHERE name = ?", name)));
}

std::vector<LedgerPlacement> Ledger::placements_on(int sheet) {
  return all_of(database_->query(placement_columns + "WHERE sheet = ? ORDER BY pocket", sheet), placement_in);
}
std::vector<LedgerPlacement> Ledger::placements_of(std::int64_t item) {
  return all_of(database_->query(placement_columns + "WHERE item = ? ORDER BY id", item), placement_in);
}
std::optional<LedgerPlacement> Ledger::placement_of(std::int64_t item) {
  for (const LedgerPlacement& placement : placements_of(item)) {
    if (placement.state == LedgerPlacement::State::on_sheet || placement.state == LedgerPlacement::State::engraved) {
      return placement;
    }
  }
  return std::nullopt;
}

MaybeFault Ledger::may_be_placed(const NewPlacement& placement) {
  const auto placed = item(placement.item);
  if (!placed) throw std::logic_error("an item that the ledger does not know was about to be laid on a sheet");
  const bool must_be_approved = placement.needs_approval || !placed->approved_hash.empty();
  if (must_be_approved && placed->approved_hash != placement.hash) {
    return Fault{"the artwork is not what was approved", placed->number,
                 placed->approved_hash.empty() ? "nothing has been approved yet"
                                               : "approved was " + placed->approved_hash.substr(0, 8) +
                                                     ", and this is " + placement.hash.substr(0, 8),
                 "Make its proof again and let the customer say yes: ordinatio proof, ordinatio approve"};
  }
  if (placement.blank.empty()) return std::nullopt;
  const auto piece = blank(placement.blank);
  if (!piece) throw std::logic_error("a blank that the ledger does not know was about to be engraved");
  const bool is_its_own = piece->state == LedgerBlank::State::reserved && piece->item == placement.item;
  if (piece->state == LedgerBlank::State::free || is_its_own) return std::nullopt;
  return Fault{"blank " + piece->id + " is not free", placed->number, "it is " + std::string(name_of(piece->state)),
               "Name another blank"};
}

void Ledger::place(const LedgerSheet& sheet, const NewPlacement& placement) {
  const LedgerItem placed = *item(placement.item);
  database_->run("INSERT INTO placement (sheet, pocket, item, blank, hash, state) VALUES (?, ?, ?, ?, ?, 'on sheet')",
                 sheet.number, placement.pocket, placement.item,
                 placement.blank.empty() ? std::nullopt : std::optional(placement.blank), placement.hash);
  note("placement", database_->last_row(), "~new", std::nullopt, "on sheet");
  const std::string place = place_text(sheet.name, placement.pocket, placement.blank);
  if (placed.pinned != placement.blank && !placed.pinned.empty()) {
    if (auto fault = pin(placed, "")) throw LedgerFailure(*std::move(fault));
  }
  if (!placement.blank.empty()) {
    set_blank_state(placement.blank, LedgerBlank::State::reserved, placement.item);
    note("blank", placement.blank, "~place", std::nullopt, place + ", item " + placed.number);
  }
  set_state(placed, ItemState::on_sheet);
  set_first(placed, false);
  note("item", placed.id, "~place", std::nullopt, place);
}

MaybeFault Ledger::plan_sheet(const NewSheet& planned) {
  const LedgerSheet& sheet = planned.sheet;
  for (const NewPlacement& placement : planned.placements) {
    if (auto fault = may_be_placed(placement)) return fault;
  }
  database_->run(
      "INSERT INTO sheet (id, name, kind, of_sheet, date, folder, state) VALUES (?, ?, ?, ?, ?, ?, 'planned')",
      sheet.number, sheet.name, name_of(sheet.kind), sheet.of, sheet.date, sheet.folder);
  for (const auto& [name, checksum] : sheet.files) {
    database_->run("INSERT INTO sheet_file (sheet, name, checksum) VALUES (?, ?, ?)", sheet.number, name, checksum);
  }
  note("sheet", std::int64_t{sheet.number}, "~new", std::nullopt,
       std::string(name_of(sheet.kind)) + ", " + std::to_string(planned.placements.size() + planned.stands.size()) +
           " in it");
  for (const NewPlacement& placement : planned.placements) place(sheet, placement);
  for (const NewStand& stand : planned.stands) {
    database_->run("INSERT INTO stand (sheet, pocket, serial, batch, item) VALUES (?, ?, ?, ?, ?)", sheet.number,
                   stand.pocket, stand.serial, stand.batch, stand.item);
    note("stand", database_->last_row(), "~new", std::nullopt, place_text(sheet.name, stand.pocket, ""));
    if (stand.item) {
      note("item", *stand.item, "~stand", std::nullopt,
           place_text(sheet.name, stand.pocket, "") +
               (stand.serial ? ", number " + std::to_string(*stand.serial) : "") +
               (stand.batch.empty() ? "" : ", batch " + stand.batch));
    }
  }
  return std::nullopt;
}

void Ledger::plan_files(const LedgerSheet& sheet, const NewFiles& planned) {
  for (const std::string& name : planned.aside) {
    database_->run("UPDATE sheet_file SET name = ? WHERE sheet = ? AND name = ?", planned.earlier + "/" + name,
                   sheet.number, name);
  }
  for (const auto& [name, checksum] : planned.files) {
    database_->run("INSERT INTO sheet_file (sheet, name, checksum) VALUES (?, ?, ?)", sheet.number, name, checksum);
  }
  note("sheet", std::int64_t{sheet.number}, "~files", std::nullopt, planned.what);
  database_->run("UPDATE sheet SET state = 'planned' WHERE id = ?", sheet.number);
}

void Ledger::mark_drawn(const LedgerSheet& sheet) {
  database_->run("UPDATE placement SET drawn = (state = 'on sheet') WHERE sheet = ?", sheet.number);
  database_->run("UPDATE sheet SET stale = '' WHERE id = ?", sheet.number);
}

void Ledger::mark_undrawn(const LedgerPlacement& placement) {
  database_->run("UPDATE placement SET drawn = 0 WHERE id = ?", placement.id);
}

void Ledger::mark_undrawn(const LedgerSheet& sheet) {
  database_->run("UPDATE placement SET drawn = 0 WHERE sheet = ?", sheet.number);
}

void Ledger::mark_stale(const LedgerSheet& sheet, const std::string& why) {
  database_->run("UPDATE sheet SET stale = ? WHERE id = ?", why, sheet.number);
  note("sheet", std::int64_t{sheet.number}, "~files", std::nullopt, "its files are stale: " + why);
}

std::vector<LedgerSheet> Ledger::outdated_sheets() {
  // What was engraved may stand on files that are run no more; where something is still to come, they will be run.
  const std::string on_it = "SELECT 1 FROM placement p WHERE p.sheet = sheet.id AND p.state = 'on sheet'";
  const std::string gone = "SELECT 1 FROM placement p WHERE p.sheet = sheet.id AND p.drawn = 1 AND p.state ";
  return sheets_in(*database_, database_->query(sheet_columns + "WHERE EXISTS (" + gone + "= 'withdrawn') OR EXISTS (" +
                                                on_it + " AND p.drawn = 0) OR (EXISTS (" + on_it + ") AND EXISTS (" +
                                                gone + "= 'spoiled')) ORDER BY id"));
}

std::optional<LedgerSheet> Ledger::sheet_with_file(const std::string& checksum) {
  const auto number = database_->number("SELECT sheet FROM sheet_file WHERE checksum = ? ORDER BY sheet", checksum);
  return number ? sheet(static_cast<int>(*number)) : std::nullopt;
}

void Ledger::mark_written(int sheet) {
  // No entry: that the files are in their place is no news, and a run that was cut short says nothing else.
  database_->run("UPDATE sheet SET state = 'written' WHERE id = ?", sheet);
}

void Ledger::set_placement_state(const LedgerPlacement& placement, LedgerPlacement::State state,
                                 const std::string& reason) {
  set("placement", placement.id, {{"state", std::string(name_of(state))}, {"reason", reason}});
}

void Ledger::mark_engraved(const LedgerPlacement& placement) {
  set_placement_state(placement, LedgerPlacement::State::engraved, "");
  set_state(*item(placement.item), ItemState::engraved);
  if (!placement.blank.empty()) set_blank_state(placement.blank, LedgerBlank::State::used, placement.item);
  note("sheet", std::int64_t{placement.sheet}, "~engraved", std::nullopt, std::to_string(placement.pocket));
}

void Ledger::take_stand_back(std::int64_t item) {
  if (const auto stand = stand_of(item)) give_stand(*stand, std::nullopt);
}

void Ledger::withdraw(const LedgerPlacement& placement, const std::string& reason, BlankFate fate) {
  const bool was_engraved = placement.state == LedgerPlacement::State::engraved;
  set_placement_state(placement, LedgerPlacement::State::withdrawn, reason);
  // Its sheet was run with it: that file is what was engraved.
  if (was_engraved) database_->run("UPDATE placement SET drawn = 0 WHERE id = ?", placement.id);
  take_stand_back(placement.item);
  if (placement.blank.empty()) return;
  if (fate == BlankFate::spoiled) {
    set_blank_state(placement.blank, LedgerBlank::State::spoiled, placement.item, reason);
  } else {
    set_blank_state(placement.blank, LedgerBlank::State::free, std::nullopt);
  }
  if (item(placement.item)->pinned == placement.blank) set("item", placement.item, {{"pinned", ""}});
}

void Ledger::spoil(const LedgerPlacement& placement, const std::string& reason) {
  set_placement_state(placement, LedgerPlacement::State::spoiled, reason);
  take_stand_back(placement.item);
  if (!placement.blank.empty()) {
    set_blank_state(placement.blank, LedgerBlank::State::spoiled, placement.item, reason);
  }
  const LedgerItem spoiled = *item(placement.item);
  if (spoiled.pinned == placement.blank) set("item", spoiled.id, {{"pinned", ""}});
  set_state(spoiled, ItemState::spoiled, reason);
  set_first(spoiled, true);
}

// ---- stands ----

namespace {

const std::string stand_columns = "SELECT id, sheet, pocket, serial, item, batch FROM stand ";

LedgerStand stand_in(const Statement& row) {
  LedgerStand stand{row.number(0), static_cast<int>(row.number(1)), static_cast<int>(row.number(2)), {}, {},
                    row.text(5)};
  if (!row.is_null(3)) stand.serial = row.number(3);
  if (!row.is_null(4)) stand.item = row.number(4);
  return stand;
}

}  // namespace

std::vector<LedgerItem> Ledger::engraved_without_stand() {
  Statement& rows = database_->query(
      "SELECT id FROM item WHERE state = 'engraved' AND NOT EXISTS (SELECT 1 FROM stand WHERE stand.item = item.id) "
      "ORDER BY id");
  const auto ids = all_of(rows, [](const Statement& row) { return row.number(0); });
  std::vector<LedgerItem> items;
  items.reserve(ids.size());
  for (const std::int64_t id : ids) items.push_back(*item(id));
  return items;
}

std::vector<LedgerStand> Ledger::spare_stands() {
  return all_of(database_->query(stand_columns + "WHERE item IS NULL ORDER BY id"), stand_in);
}

std::optional<LedgerStand> Ledger::stand_of(std::int64_t item) {
  return first_of(database_->query(stand_columns + "WHERE item = ?", item), stand_in);
}

void Ledger::give_stand(const LedgerStand& stand, std::optional<std::int64_t> item) {
  set("stand", stand.id, {{"item", item ? std::optional(std::to_string(*item)) : std::nullopt}});
}

std::optional<std::int64_t> Ledger::serial_given(std::int64_t from, std::int64_t to) {
  return database_->number("SELECT min(serial) FROM stand WHERE serial BETWEEN ? AND ?", from, to);
}

std::int64_t Ledger::next_serial() { return *database_->number("SELECT coalesce(max(serial), 0) + 1 FROM stand"); }

}  // namespace ordinatio::inline ledger
