#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/named.h"
#include "ledger/rows.h"

namespace ordinatio::inline ledger {
namespace {

const std::string blank_columns = "SELECT id, material, width, height, measured, state, reason, item FROM blank ";

LedgerBlank blank_in(const Statement& row) {
  LedgerBlank blank{row.text(0), row.text(1), row.real(2),
                    row.real(3), row.text(4), named<LedgerBlank::State>(row.text(5), 4),
                    row.text(6), {}};
  if (!row.is_null(7)) blank.item = row.number(7);
  return blank;
}

std::string mm(double value) {
  std::string text;
  append_number(text, value, 3);
  return text;
}

}  // namespace

std::vector<LedgerBlank> Ledger::blanks() {
  return all_of(database_->query(blank_columns + "ORDER BY rowid"), blank_in);
}

std::optional<LedgerBlank> Ledger::blank(const std::string& id) {
  return first_of(database_->query(blank_columns + "WHERE id = ?", id), blank_in);
}

void Ledger::add_blank(const LedgerBlank& blank) {
  database_->run(
      "INSERT INTO blank (id, material, width, height, measured, state, reason) VALUES (?, ?, ?, ?, ?, ?, ?)", blank.id,
      blank.material, blank.width, blank.height, blank.measured, name_of(blank.state), blank.reason);
  note("blank", blank.id, "~new", std::nullopt,
       std::string(name_of(blank.state)) + ", " + mm(blank.width) + " × " + mm(blank.height) + " mm" +
           (blank.material.empty() ? "" : ", " + blank.material) + (blank.reason.empty() ? "" : ": " + blank.reason));
}

void Ledger::set_measured(const LedgerBlank& before, const LedgerBlank& now) {
  const bool same = before.measured == now.measured;
  if (same) return;
  note("blank", before.id, "~measured", mm(before.width) + " × " + mm(before.height) + " mm",
       mm(now.width) + " × " + mm(now.height) + " mm");
  database_->run("UPDATE blank SET material = ?, width = ?, height = ?, measured = ? WHERE id = ?", now.material,
                 now.width, now.height, now.measured, before.id);
}

void Ledger::set_blank_state(const std::string& id, LedgerBlank::State state, std::optional<std::int64_t> item,
                             const std::string& reason) {
  set("blank", id,
      {{"state", std::string(name_of(state))},
       {"item", item ? std::optional(std::to_string(*item)) : std::nullopt},
       {"reason", reason}});
}

MaybeFault Ledger::pin(const LedgerItem& item, const std::string& id) {
  if (item.pinned == id) return std::nullopt;
  if (!id.empty()) {
    const auto wanted = blank(id);
    if (!wanted) {
      return Fault{"there is no blank " + id, item.number, "", "Measure it into the blanks' file, and run the day"};
    }
    const bool is_its_own = wanted->state == LedgerBlank::State::reserved && wanted->item == item.id;
    if (wanted->state != LedgerBlank::State::free && !is_its_own) {
      return Fault{"blank " + id + " is not free", item.number,
                   "it is " + std::string(name_of(wanted->state)) +
                       (wanted->reason.empty() ? std::string() : ": " + wanted->reason),
                   "Name another blank"};
    }
  }
  const auto before = item.pinned.empty() ? std::nullopt : blank(item.pinned);
  if (before && before->state == LedgerBlank::State::reserved && before->item == item.id) {
    set_blank_state(before->id, LedgerBlank::State::free, std::nullopt);
  }
  if (!id.empty()) set_blank_state(id, LedgerBlank::State::reserved, item.id);
  set("item", item.id, {{"pinned", id}});
  return std::nullopt;
}

}  // namespace ordinatio::inline ledger
