#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/named.h"
#include "ledger/rows.h"
#include "ledger/undoing.h"

namespace ordinatio::inline ledger {

std::optional<std::int64_t> Ledger::answer_that_added(const LedgerItem& item) {
  // What came after it is taken back before it.
  return database_->number(
      "SELECT e.id FROM entry e JOIN change c ON c.entry = e.id WHERE c.kind = 'item' AND c.subject = ? AND c.field = "
      "'~new' AND e.kind = 'answer' AND EXISTS (SELECT 1 FROM change q WHERE q.entry = e.id AND q.kind = 'question' "
      "AND "
      "q.field = 'state' AND q.after = 'new') AND NOT EXISTS (SELECT 1 FROM entry u WHERE u.undoes = e.id) AND NOT "
      "EXISTS (SELECT 1 FROM entry l JOIN change lc ON lc.entry = l.id WHERE lc.kind = 'item' AND lc.subject = "
      "c.subject "
      "AND l.id > e.id AND l.undoes IS NULL AND instr(?, ' ' || l.kind || ' ') > 0 AND NOT EXISTS (SELECT 1 FROM entry "
      "u WHERE u.undoes = l.id))",
      item.id, words_of(waiting_kinds));
}

// The items that it added stay in the ledger, cancelled; the line is as if it had never come, and the question is open.
Result<Ledger::Undone> Ledger::take_answer_back(const LedgerItem& item, std::int64_t answer) {
  const auto in_answer = [&](const char* query) {
    return all_of(database_->query(query, answer), [](const Statement& row) { return row.number(0); });
  };
  const auto added = in_answer("SELECT subject FROM change WHERE entry = ? AND kind = 'item' AND field = '~new'");
  const auto settled =
      in_answer("SELECT subject FROM change WHERE entry = ? AND kind = 'question' AND field = 'state'");
  const std::string cause = *database_->text("SELECT cause FROM entry WHERE id = ?", answer);
  for (const std::int64_t id : added) {
    const LedgerItem one = *this->item(id);
    if (is_waiting(one.state) && placements_of(id).empty()) continue;
    return cannot_undo(item.number,
                       one.number + ", which \"" + cause + "\" added, is " +
                           (is_waiting(one.state) ? "on a sheet's story already" : std::string(name_of(one.state))));
  }
  undoes_ = answer;
  Undone undone{cause, added};
  for (const std::int64_t id : added) {
    if (auto fault = pin(*this->item(id), "")) return *std::move(fault);
    set_first(*this->item(id), false);
    set_state(*this->item(id), ItemState::cancelled, "the answer that added it was taken back");
  }
  set("line", item.line, {{"taken_back", "1"}, {"key", "taken back " + std::to_string(item.line)}});
  for (const std::int64_t id : settled) {
    const LedgerQuestion now = *question(id);
    set("question", id, {{"state", "open"}});
    for (const LedgerItem& one : items_of_line(now.line)) {
      if (!is_waiting(one.state) || one.held_by == HeldBy::person) continue;
      set_state(one, ItemState::held, "an export says otherwise, and it is not settled", HeldBy::question);
      undone.items.push_back(one.id);
    }
  }
  return undone;
}

}  // namespace ordinatio::inline ledger
