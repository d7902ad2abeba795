#include "ledger/database.h"
#include "ledger/ledger.h"
#include "ledger/rows.h"

namespace ordinatio::inline ledger {

std::vector<Ledger::Unheard> Ledger::unheard() {
  return all_of(
      database_->query("SELECT a.entry, e.cause, a.asked, a.account FROM account a JOIN entry e ON e.id = a.entry "
                       "WHERE a.heard = 0 ORDER BY a.entry"),
      [](const Statement& row) {
        return Unheard{row.number(0), row.text(1), row.text(2), row.text(3)};
      });
}

std::optional<std::int64_t> Ledger::keep_account(const std::string& account) {
  if (entry_ == 0 || asked_.empty()) return std::nullopt;
  database_->run("INSERT INTO account (entry, asked, account) VALUES (?, ?, ?)", entry_, asked_, account);
  return entry_;
}

void Ledger::change_account(std::int64_t entry, const std::string& account) {
  database_->run("UPDATE account SET account = ? WHERE entry = ?", account, entry);
}

void Ledger::mark_heard(const std::vector<std::int64_t>& entries) {
  database_->script("BEGIN IMMEDIATE");
  for (const std::int64_t entry : entries) database_->run("UPDATE account SET heard = 1 WHERE entry = ?", entry);
  database_->script("COMMIT");
}

}  // namespace ordinatio::inline ledger
