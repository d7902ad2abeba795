#include <algorithm>

#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/rows.h"
#include "ledger/undoing.h"

namespace ordinatio::inline ledger {

std::int64_t Ledger::entry() {
  if (entry_ != 0) return entry_;
  // Times never go down, even where the clock was put right by a little.
  const auto last = database_->text("SELECT at FROM entry ORDER BY id DESC LIMIT 1");
  const std::string at = last && !options_.clock_is_right ? std::max(*last, options_.now) : options_.now;
  database_->run("INSERT INTO entry (at, kind, cause, undoes) VALUES (?, ?, ?, ?)", at, std::string(name_of(kind_)),
                 options_.cause, undoes_);
  entry_ = database_->last_row();
  return entry_;
}

void Ledger::note(const std::string& table, const Subject& subject, const std::string& field,
                  const std::optional<std::string>& before, const std::optional<std::string>& after) {
  database_->run("INSERT INTO change (entry, kind, subject, field, before, after) VALUES (?, ?, ?, ?, ?, ?)", entry(),
                 table, subject, field, before, after);
}

void Ledger::set(const std::string& table, const Subject& subject, const Fields& fields) {
  std::string columns, assignments;
  for (const auto& [field, value] : fields) {
    columns += (columns.empty() ? "" : ", ") + field;
    assignments += (assignments.empty() ? "" : ", ") + field + " = ?";
  }
  Statement& now = database_->query("SELECT " + columns + " FROM " + table + " WHERE id = ?", subject);
  if (!now.step()) throw std::logic_error("the ledger has no such " + table);
  std::vector<std::optional<std::string>> before;
  before.reserve(fields.size());
  for (int column = 0; column < static_cast<int>(fields.size()); ++column) {
    before.push_back(now.is_null(column) ? std::nullopt : std::optional(now.text(column)));
  }
  now.clear();
  const auto differs = [&](std::size_t i) { return before[i] != fields[i].second; };
  bool any = false;
  for (std::size_t i = 0; i < fields.size(); ++i) any = any || differs(i);
  if (!any) return;
  Statement& update = database_->query("UPDATE " + table + " SET " + assignments + " WHERE id = ?");
  int parameter = 0;
  for (const auto& [field, value] : fields) update.bind(++parameter, value);
  update.bind(++parameter, subject);
  while (update.step()) {
  }
  update.clear();
  if (table == "placement") may_come_right(subject);
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (differs(i)) note(table, subject, fields[i].first, before[i], fields[i].second);
  }
}

/// What could not be written anew may come out otherwise now.
void Ledger::may_come_right(const Subject& placement) {
  database_->run("UPDATE sheet SET stale = '' WHERE stale <> '' AND id = (SELECT sheet FROM placement WHERE id = ?)",
                 placement);
}

namespace {

struct Change {
  std::string table, field;
  std::variant<std::int64_t, std::string> subject;
  std::optional<std::string> before, after;
};

std::vector<Change> changes_in(Database& database, std::int64_t entry) {
  std::vector<Change> changes;
  Statement& rows = database.query(
      "SELECT kind, subject, field, before, after, typeof(subject) FROM change WHERE entry = ? ORDER BY id", entry);
  const auto value = [&rows](int column) {
    return rows.is_null(column) ? std::nullopt : std::optional(rows.text(column));
  };
  while (rows.step()) {
    Change change{rows.text(0), rows.text(2), rows.number(1), value(3), value(4)};
    if (rows.text(5) == "text") change.subject = rows.text(1);
    changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace

std::string words_of(std::span<const EntryKind> kinds) {
  std::string words = " ";
  for (const EntryKind kind : kinds) words += std::string(name_of(kind)) + " ";
  return words;
}

Fault cannot_undo(const std::string& name, const std::string& why) {
  return {"this cannot be taken back", name, why, "Correct it by a command of its own"};
}

Result<Ledger::Undone> Ledger::take_back(const std::string& table, const Subject& subject, const std::string& name,
                                         std::span<const EntryKind> kinds) {
  Statement& last = database_->query(
      "SELECT e.id, e.cause FROM entry e JOIN change c ON c.entry = e.id WHERE c.kind = ? AND c.subject = ? AND "
      "e.undoes IS NULL AND instr(?, ' ' || e.kind || ' ') > 0 AND NOT EXISTS (SELECT 1 FROM entry u WHERE u.undoes = "
      "e.id) ORDER BY e.id DESC LIMIT 1",
      table, subject, words_of(kinds));
  if (!last.step()) {
    last.clear();
    return cannot_undo(name, "there is nothing left that could be taken back");
  }
  const std::int64_t undone = last.number(0);
  const std::string cause = last.text(1);
  last.clear();

  std::vector<FormerRow> rows;
  std::vector<Change> changes = changes_in(*database_, undone);
  std::ranges::reverse(changes);
  for (const Change& change : changes) {
    if (change.field == "~new") return cannot_undo(name, "\"" + cause + "\" made something new");
    if (change.field.starts_with('~')) continue;
    const auto now =
        database_->text("SELECT " + change.field + " FROM " + change.table + " WHERE id = ?", change.subject);
    if (now != change.after) return cannot_undo(name, "something has changed since \"" + cause + "\"");
    auto row = std::ranges::find_if(
        rows, [&](const FormerRow& one) { return one.table == change.table && one.subject == change.subject; });
    if (row == rows.end()) row = rows.insert(rows.end(), {change.table, change.subject, {}});
    row->fields.emplace_back(change.field, change.before);
  }
  if (const auto why = lies_otherwise(rows, table, subject)) return cannot_undo(name, *why);
  undoes_ = undone;
  Undone taken{cause, {}, {}};
  for (const FormerRow& row : rows) {
    Fields fields = row.fields;  // pockets are laid back together
    std::erase_if(fields, [&](const auto& field) { return row.table == "placement" && field.first == "pocket"; });
    if (!fields.empty()) set(row.table, row.subject, fields);
    if (row.table == "item") taken.items.push_back(std::get<std::int64_t>(row.subject));
  }
  taken.moved = lay_back(rows);
  std::ranges::copy(taken.moved, std::back_inserter(taken.items));
  std::ranges::sort(taken.items);
  taken.items.erase(std::unique(taken.items.begin(), taken.items.end()), taken.items.end());
  return taken;
}

namespace {

constexpr EntryKind made_kinds[] = {EntryKind::approval, EntryKind::packing, EntryKind::spoiling, EntryKind::cancelling,
                                    EntryKind::moving};
constexpr EntryKind sheet_kinds[] = {EntryKind::engraving}, row_kinds[] = {EntryKind::letting_go};

}  // namespace

Result<Ledger::Undone> Ledger::undo(const LedgerItem& before) {
  if (const auto answer = answer_that_added(before)) return take_answer_back(before, *answer);
  // Once it is made, a correction taken back would have it say other words than the piece bears, or let its blank go.
  Result<Undone> undone = take_back("item", before.id, before.number,
                                    is_waiting(before.state) ? std::span<const EntryKind>(waiting_kinds) : made_kinds);
  if (!undone.ok()) return undone;
  const LedgerItem now = *item(before.id);
  // Proof and approval were of the words, or of the setting, that are gone again.
  const bool is_looked_at = now.state == before.state && !waits_for_person(now);
  const bool is_another = now.words != before.words || now.setting != before.setting;
  if (is_another && is_looked_at) set_state(now, ItemState::received);
  return undone;
}

Result<Ledger::Undone> Ledger::undo(const LedgerHeldRow& row) {
  if (row.state != LedgerHeldRow::State::mended) return take_back("held_row", row.id, row_name(row.id), row_kinds);
  // It was an export that settled it, with much else: the row alone is held again.
  settle(row, LedgerHeldRow::State::open);
  return Undone{"mended", {}, {}};
}

Result<Ledger::Undone> Ledger::undo(const LedgerSheet& sheet) {
  Result<Undone> undone = take_back("sheet", std::int64_t{sheet.number}, sheet.name, sheet_kinds);
  if (!undone.ok()) return undone;
  // Stands that were given since are to spare again.
  Statement& rows = database_->query(
      "SELECT item.id FROM stand JOIN item ON item.id = stand.item WHERE item.state NOT IN ('engraved', 'packed', "
      "'cancelled')");
  const auto items = all_of(rows, [](const Statement& row) { return row.number(0); });
  for (const std::int64_t item : items) take_stand_back(item);
  return undone;
}

}  // namespace ordinatio::inline ledger
