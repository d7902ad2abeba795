// Exports read into a ledger in passing, with the items told in one line each.
#pragma once

#include <catch2/catch.hpp>

#include "base/account.h"
#include "intake/intake.h"
#include "orders/orders.h"

namespace ordinatio {

/// A row of an export. text: one for all pieces, or one for each with | between them.
struct Row {
  std::string number, text;
  int quantity = 1;
  std::string line = {}, note = {}, design = {};
  bool cancelled = false;
  std::string blank = {};
};

inline Order order_of_row(const Row& row) {
  Order order;
  order.number = row.number, order.quantity = row.quantity, order.line = row.line, order.note = row.note;
  order.design = row.design, order.cancelled = row.cancelled, order.source = "orders.csv:2";
  if (!row.blank.empty()) order.blanks = {row.blank};
  std::string rest = row.text;
  for (std::size_t bar; (bar = rest.find('|')) != std::string::npos; rest.erase(0, bar + 1)) {
    order.texts.push_back(rest.substr(0, bar));
  }
  if (!order.texts.empty()) order.texts.push_back(rest);
  order.text = order.texts.empty() ? row.text : order.texts.front();
  return order;
}

/// A ledger without a file.
class IntakeLedger {
 public:
  IntakeLedger() : ledger_(*Ledger::open({{}, "2026-11-25T08:00:00Z", "test", 0, false, ""}, Ledger::Access::write)) {}

  Ledger& operator*() { return *ledger_; }
  Ledger* operator->() { return ledger_.get(); }

  /// checksum: empty for an export that was never read before.
  Account read(const std::vector<Row>& rows, std::string checksum = "") {
    Orders orders;
    for (const Row& row : rows) orders.orders.push_back(order_of_row(row));
    orders.checksum = checksum.empty() ? "export " + std::to_string(++exports_) : checksum;
    Account account;
    ledger_->begin(EntryKind::intake);
    counts_ = take_in(*ledger_, orders, "orders.csv", account);
    ledger_->commit();
    CHECK(ledger_->contradictions() == std::vector<std::string>{});
    return account;
  }
  [[nodiscard]] const IntakeCounts& counts() const { return counts_; }

  /// Puts the item on a sheet of its own, engraved or not.
  void lay(const std::string& number, bool engraved = false, const std::string& blank = "") {
    ledger_->begin(EntryKind::day);
    const int sheet = ledger_->next_sheet_number();
    const std::string name = "sheet-" + std::to_string(sheet);
    NewSheet planned{{sheet, name, LedgerSheet::Kind::day, {}, "", "out", false, {{name + ".svg", "sum"}}}, {}, {}};
    const std::int64_t id = ledger_->item_numbered(number)->id;
    planned.placements = {{id, 1, blank, "hash", false}};
    REQUIRE_FALSE(ledger_->plan_sheet(planned));
    ledger_->mark_written(sheet);
    if (engraved) ledger_->mark_engraved(*ledger_->placement_of(id));
    ledger_->commit();
  }
  void correct(const std::string& number, const std::string& words) {
    ledger_->begin(EntryKind::correction);
    ledger_->set_words(*ledger_->item_numbered(number), words);
    ledger_->commit();
  }
  void set_state(const std::string& number, ItemState state, const std::string& reason, HeldBy by) {
    ledger_->begin(EntryKind::correction);
    ledger_->set_state(*ledger_->item_numbered(number), state, reason, by);
    ledger_->commit();
  }

  /// "1 Ada received; 2 Ada held by question", of one order; a cancelled one without its words.
  std::string items(const std::string& order = "1042") {
    std::string text;
    for (const LedgerItem& item : ledger_->items_of_order(order)) {
      text += (text.empty() ? "" : "; ") + std::to_string(item.ordinal) + " " +
              (item.state == ItemState::cancelled ? "" : item.words + " ") + std::string(name_of(item.state)) +
              (item.held_by == HeldBy::nobody ? "" : " by " + std::string(name_of(item.held_by)));
    }
    return text;
  }
  std::size_t questions() { return ledger_->open_questions().size(); }

 private:
  std::unique_ptr<Ledger> ledger_;
  IntakeCounts counts_;
  int exports_ = 0;
};

}  // namespace ordinatio
