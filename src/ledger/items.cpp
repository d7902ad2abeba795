#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/named.h"
#include "ledger/rows.h"

namespace ordinatio::inline ledger {
namespace {

const std::string item_columns =
    "SELECT id, line, number, order_number, ordinal, exported, words, design, wish, note, source, state, held_by, "
    "reason, "
    "first, pinned, proofed_hash, approved_hash, customer, setting FROM item ";
const std::string line_columns =
    "SELECT id, order_number, key, has_id, occurrence, version, ordered, address FROM line ";

LedgerItem item_in(const Statement& row) {
  return {row.number(0),
          row.number(1),
          row.text(2),
          row.text(3),
          static_cast<int>(row.number(4)),
          row.text(5),
          row.text(6),
          row.text(7),
          row.text(8),
          row.text(9),
          row.text(10),
          named<ItemState>(row.text(11), 10),
          named<HeldBy>(row.text(12), 4),
          row.text(13),
          row.number(14) != 0,
          row.text(15),
          row.text(16),
          row.text(17),
          row.text(18),
          row.text(19)};
}

LedgerLine line_in(const Statement& row) {
  return {row.number(0), row.text(1), row.text(2), row.number(3) != 0, static_cast<int>(row.number(4)),
          row.text(5),   row.text(6), row.text(7)};
}

}  // namespace

// ---- exports ----

bool Ledger::knows_export(const std::string& checksum) {
  return database_->number("SELECT 1 FROM export WHERE checksum = ?", checksum).has_value();
}

bool Ledger::is_older_than(const std::string& checksum, std::int64_t line) {
  return database_
      ->number(
          "SELECT 1 FROM export WHERE checksum = ? AND entry < (SELECT min(c.entry) FROM item i JOIN change c ON "
          "c.kind = "
          "'item' AND c.subject = i.id AND c.field = '~new' WHERE i.line = ?)",
          checksum, line)
      .has_value();
}

void Ledger::note_export(const std::string& checksum, const std::string& name) {
  if (!knows_export(checksum)) {
    database_->run("INSERT INTO export (checksum, name, entry) VALUES (?, ?, ?)", checksum, name, entry());
  }
}

// ---- lines ----

std::vector<LedgerLine> Ledger::lines_of(const std::string& order_number) {
  return all_of(database_->query(line_columns + "WHERE order_number = ? AND taken_back = 0 ORDER BY id", order_number),
                line_in);
}

std::optional<LedgerLine> Ledger::line(std::int64_t id) {
  return first_of(database_->query(line_columns + "WHERE id = ?", id), line_in);
}

std::int64_t Ledger::add_line(const LedgerLine& line) {
  database_->run(
      "INSERT INTO line (order_number, has_id, key, occurrence, version, ordered, address) "
      "VALUES (?, ?, ?, ?, ?, ?, ?)",
      line.order_number, int{line.has_id}, line.key, line.occurrence, line.version, line.ordered, line.address);
  const std::int64_t id = database_->last_row();
  database_->run("INSERT INTO line_version (line, version, key, occurrence) VALUES (?, ?, ?, ?)", id, line.version,
                 line.key, line.occurrence);
  return id;
}

bool Ledger::had_version(std::int64_t line, const std::string& version) {
  return database_->number("SELECT 1 FROM line_version WHERE line = ? AND version = ?", line, version).has_value();
}

bool Ledger::had_key(std::int64_t line, const std::string& key, int occurrence) {
  return database_
      ->number("SELECT 1 FROM line_version WHERE line = ? AND key = ? AND occurrence = ?", line, key, occurrence)
      .has_value();
}

void Ledger::set_version(const LedgerLine& line) {
  set("line", line.id,
      {{"has_id", line.has_id ? "1" : "0"},
       {"key", line.key},
       {"occurrence", std::to_string(line.occurrence)},
       {"version", line.version},
       {"ordered", line.ordered},
       {"address", line.address}});
  database_->run("INSERT OR IGNORE INTO line_version (line, version, key, occurrence) VALUES (?, ?, ?, ?)", line.id,
                 line.version, line.key, line.occurrence);
}

// ---- items ----

std::vector<LedgerItem> Ledger::items_of_line(std::int64_t line) {
  return all_of(database_->query(item_columns + "WHERE line = ? ORDER BY ordinal", line), item_in);
}

std::vector<LedgerItem> Ledger::items_of_order(const std::string& order_number) {
  return all_of(database_->query(item_columns + "WHERE order_number = ? ORDER BY ordinal", order_number), item_in);
}

std::int64_t Ledger::entry_of(const LedgerItem& item) {
  return database_->number("SELECT entry FROM change WHERE kind = 'item' AND subject = ? AND field = '~new'", item.id)
      .value_or(0);
}

std::vector<LedgerItem> Ledger::items_taken_in_by(std::int64_t entry) {
  return all_of(database_->query(item_columns + "WHERE id IN (SELECT subject FROM change WHERE entry = ? AND kind = "
                                                "'item' AND field = '~new') ORDER BY id",
                                 entry),
                item_in);
}

std::optional<LedgerItem> Ledger::item(std::int64_t id) {
  return first_of(database_->query(item_columns + "WHERE id = ?", id), item_in);
}

std::optional<LedgerItem> Ledger::item_numbered(const std::string& number) {
  return first_of(database_->query(item_columns + "WHERE number = ?", number), item_in);
}

std::vector<LedgerItem> Ledger::items_in(std::optional<ItemState> state) {
  if (!state) return all_of(database_->query(item_columns + "ORDER BY id"), item_in);
  return all_of(database_->query(item_columns + "WHERE state = ? ORDER BY id", name_of(*state)), item_in);
}

std::vector<LedgerItem> Ledger::waiting_items() {
  return all_of(database_->query(item_columns + "WHERE state IN ('received', 'held', 'ready', 'proofed', 'approved', "
                                                "'spoiled') ORDER BY first DESC, id"),
                item_in);
}

int Ledger::next_ordinal(const std::string& order_number) {
  return static_cast<int>(
      *database_->number("SELECT coalesce(max(ordinal), 0) + 1 FROM item WHERE order_number = ?", order_number));
}

std::int64_t Ledger::add_item(const NewItem& item) {
  const std::string number = item.order_number + "-" + std::to_string(item.ordinal);
  database_->run(
      "INSERT INTO item (number, line, order_number, ordinal, exported, words, design, wish, note, source, state, "
      "pinned, customer) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 'received', ?, ?)",
      number, item.line, item.order_number, item.ordinal, item.words, item.words, item.design, item.wish, item.note,
      item.source, item.pinned, item.customer);
  const std::int64_t id = database_->last_row();
  note("item", id, "~new", std::nullopt, item.source);
  return id;
}

std::optional<std::string> Ledger::nearest_number(const std::string& number) {
  // Those that begin alike are near enough to look at: a whole ledger would be slow to compare.
  const std::string head = number.substr(0, number.size() / 2);
  Statement& rows =
      database_->query("SELECT number FROM item WHERE number >= ? AND number < ? || x'ff' LIMIT 5000", head, head);
  const auto known = all_of(rows, [](const Statement& row) { return row.text(0); });
  return nearest_word(number, std::vector<std::string_view>(known.begin(), known.end()));
}

void Ledger::set_words(const LedgerItem& item, const std::string& words) { set("item", item.id, {{"words", words}}); }

void Ledger::set_setting(const LedgerItem& item, const std::string& setting) {
  set("item", item.id, {{"setting", setting}});
}

void Ledger::set_exported(const LedgerItem& item, const NewItem& now) {
  set("item", item.id,
      {{"exported", now.words},
       {"words", item.exported == now.words ? item.words : now.words},
       {"design", now.design},
       {"wish", now.wish},
       {"note", now.note},
       {"source", now.source},
       {"customer", now.customer}});
}

void Ledger::set_state(const LedgerItem& item, ItemState state, const std::string& reason, HeldBy held_by) {
  set("item", item.id,
      {{"state", std::string(name_of(state))}, {"held_by", std::string(name_of(held_by))}, {"reason", reason}});
}

void Ledger::set_first(const LedgerItem& item, bool first) { set("item", item.id, {{"first", first ? "1" : "0"}}); }

void Ledger::set_proofed(const LedgerItem& item, const std::string& hash) {
  set("item", item.id, {{"proofed_hash", hash}});
}

void Ledger::set_approved(const LedgerItem& item, const std::string& hash) {
  set("item", item.id, {{"approved_hash", hash}, {"state", "approved"}, {"held_by", ""}, {"reason", ""}});
}

// ---- questions ----

namespace {

const std::string question_columns = "SELECT id, line, kind, version, proposal, asks, state FROM question ";

LedgerQuestion question_in(const Statement& row) {
  return {row.number(0), row.number(1), named<LedgerQuestion::Kind>(row.text(2), 3), row.text(3),
          row.text(4),   row.text(5),   named<LedgerQuestion::State>(row.text(6), 4)};
}

}  // namespace

std::vector<LedgerQuestion> Ledger::open_questions() {
  return all_of(database_->query(question_columns + "WHERE state = 'open' ORDER BY id"), question_in);
}

std::optional<LedgerQuestion> Ledger::question(std::int64_t id) {
  return first_of(database_->query(question_columns + "WHERE id = ?", id), question_in);
}

std::optional<LedgerQuestion> Ledger::question_about(std::int64_t line, const std::string& version) {
  return first_of(database_->query(question_columns + "WHERE line = ? AND version = ?", line, version), question_in);
}

std::int64_t Ledger::ask(const LedgerQuestion& question) {
  database_->run("INSERT INTO question (line, kind, version, proposal, asks, state) VALUES (?, ?, ?, ?, ?, 'open')",
                 question.line, name_of(question.kind), question.version, question.proposal, question.asks);
  const std::int64_t id = database_->last_row();
  note("question", id, "~new", std::nullopt, question.asks);
  return id;
}

void Ledger::settle(const LedgerQuestion& question, LedgerQuestion::State state) {
  set("question", question.id, {{"state", std::string(name_of(state))}});
}

}  // namespace ordinatio::inline ledger
