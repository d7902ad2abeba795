#include <algorithm>

#include "intake/intake.h"
#include "intake/intake_row.h"

#include "base/account.h"
#include "bookkeeping/bookkeeping.h"
#include "intake/held_rows.h"
#include "orders/orders.h"
#include "shop/ledger_access.h"
#include "shop/ledger_pieces.h"
#include "shop/samples.h"
#include "shop/taking_in.h"
#include "shop/transaction.h"

namespace ordinatio::inline bookkeeping {
namespace {

/// What waited for the answer goes on, unless another question about the line is open.
void release(Ledger& ledger, const LedgerQuestion& settled) {
  for (const LedgerQuestion& question : ledger.open_questions()) {
    if (question.line == settled.line) return;
  }
  for (const LedgerItem& item : ledger.items_of_line(settled.line)) {
    if (item.held_by == HeldBy::question) ledger.set_state(item, ItemState::received);
  }
}

/// Two questions may be about one row: what the other's answer made of it stands.
bool has_line(Ledger& ledger, const LedgerQuestion& question, const IntakeRules& rules, bool as_new) {
  const IntakeRow row = row_proposed(question, rules);
  const std::vector<LedgerLine> lines = ledger.lines_of(row.order.number);
  return std::ranges::any_of(lines, [&](const LedgerLine& line) {
    return line.key == row.key && line.occurrence == row.occurrence && (as_new || line.id != question.line);
  });
}

Fault no_question(std::int64_t number) {
  return {"there is no question " + std::to_string(number) + " to answer", "",
          "it was never asked, or has been answered", "Look at those that are open: ordinatio list"};
}

}  // namespace

Result<Account> run_intake(const Shop& shop, const IntakeOptions& options) {
  Result<Orders> orders = read_orders(options.orders, shop.orders, Repeats::are_lines);
  if (!orders.ok()) return orders.fault();
  if (auto fault = refuse_samples(*orders, options.orders.filename().string(), options.call)) return *std::move(fault);
  const auto take = [&](Ledger& ledger, Account& account) {
    take_export_in(shop, ledger, *orders, options.orders, options.channel, account);
    // Pieces that cannot be read hold the day up, and no orders.
    if (const auto fault = note_pieces(shop, ledger)) account.warnings.push_back(describe(*fault));
    tell_held_rows(ledger, account);
    tell_questions(ledger, account);
    return MaybeFault();
  };
  return options.dry_run ? to_see(shop, options.call, EntryKind::intake, take)
                         : in_ledger(shop, options.call, EntryKind::intake, take, orders->checksum);
}

Result<Account> run_answer(const Shop& shop, const AnswerOptions& options) {
  return in_ledger(shop, options.call, EntryKind::answer, [&](Ledger& ledger, Account& account) -> MaybeFault {
    const auto question = ledger.question(options.question);
    if (!question || question->state != LedgerQuestion::State::open) return no_question(options.question);
    using Answer = AnswerOptions::Answer;
    if (options.answer == Answer::as_new && question->kind != LedgerQuestion::Kind::edit) {
      return Fault{"this question is not about a new line", "question " + std::to_string(question->id), "",
                   "Answer take or keep"};
    }
    const IntakeRules rules = intake_rules(shop);
    const bool as_new = options.answer == Answer::as_new;
    if (options.answer != Answer::keep && has_line(ledger, *question, rules, as_new)) {
      return Fault{"the ledger has this line already", "question " + std::to_string(question->id), "", "Answer keep"};
    }
    ledger.settle(*question, options.answer == Answer::take     ? LedgerQuestion::State::taken
                             : options.answer == Answer::as_new ? LedgerQuestion::State::as_new
                                                                : LedgerQuestion::State::kept);
    if (options.answer == Answer::take) take_proposal(ledger, *question, rules, account);
    if (options.answer == Answer::as_new) add_proposal(ledger, *question, rules, account);
    release(ledger, *question);
    account.told.push_back("question " + std::to_string(question->id) + " is answered");
    tell_questions(ledger, account);
    return std::nullopt;
  });
}

}  // namespace ordinatio::inline bookkeeping
