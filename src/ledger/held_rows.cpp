#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/named.h"
#include "ledger/rows.h"

namespace ordinatio::inline ledger {
namespace {

const std::string row_columns =
    "SELECT id, row, occurrence, channel, file, checksum, place, order_number, line_id, customer, beside, reason, "
    "mend, "
    "state "
    "FROM held_row ";

LedgerHeldRow held_in(const Statement& row) {
  return {row.number(0),
          row.text(1),
          static_cast<int>(row.number(2)),
          row.text(3),
          row.text(4),
          row.text(5),
          static_cast<int>(row.number(6)),
          row.text(7),
          row.text(8),
          row.text(9),
          row.text(10),
          row.text(11),
          row.text(12),
          named<LedgerHeldRow::State>(row.text(13), 3)};
}

}  // namespace

std::string row_name(std::int64_t id) { return "row-" + std::to_string(id); }

std::vector<LedgerHeldRow> Ledger::open_rows() {
  return all_of(database_->query(row_columns + "WHERE state = 'open' ORDER BY id"), held_in);
}

std::vector<LedgerHeldRow> Ledger::held_rows() {
  return all_of(database_->query(row_columns + "ORDER BY id"), held_in);
}

std::optional<LedgerHeldRow> Ledger::held_row(std::int64_t id) {
  return first_of(database_->query(row_columns + "WHERE id = ?", id), held_in);
}

std::optional<LedgerHeldRow> Ledger::held_row_as(const std::string& row, const std::string& channel, int occurrence) {
  return first_of(
      database_->query(row_columns + "WHERE row = ? AND channel = ? AND occurrence = ?", row, channel, occurrence),
      held_in);
}

std::int64_t Ledger::add_held_row(const LedgerHeldRow& row) {
  database_->run(
      "INSERT INTO held_row (row, occurrence, channel, file, checksum, place, order_number, line_id, customer, beside, "
      "reason, mend) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      row.row, row.occurrence, row.channel, row.file, row.checksum, row.place, row.order_number, row.line_id,
      row.customer, row.beside, row.reason, row.mend);
  const std::int64_t id = database_->last_row();
  note("held_row", id, "~new", std::nullopt, row.file + ":" + std::to_string(row.place) + ", held: " + row.reason);
  return id;
}

void Ledger::see_again(const LedgerHeldRow& row, const LedgerHeldRow& now) {
  // Where it stands is no news: an export that comes again says nothing new.
  database_->run("UPDATE held_row SET file = ?, checksum = ?, place = ?, beside = ? WHERE id = ?", now.file,
                 now.checksum, now.place, now.beside, row.id);
  set("held_row", row.id,
      {{"reason", now.reason},
       {"mend", now.mend},
       {"order_number", now.order_number},
       {"line_id", now.line_id},
       {"customer", now.customer}});
}

void Ledger::settle(const LedgerHeldRow& row, LedgerHeldRow::State state) {
  set("held_row", row.id, {{"state", std::string(name_of(state))}});
}

}  // namespace ordinatio::inline ledger
